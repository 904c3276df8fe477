#pragma once
// Holes placed in the world, and screws with everything they pass. Private to the plan.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "plan/build.h"

namespace fitup::plan {

/// A round hole square through a flat part or a member's leg at a world point, along an axis direction.
struct RoundHole {
  Vec3 point;
  Vec3 direction;
  double diameter_mm = 0;
  HoleKind kind = HoleKind::clear;
  std::string purpose;
  bool filled_before_coat = false;  // by what is welded into it; else a clear one is made larger by what a coat takes
  double slot_mm = 0;               // how far what goes through it may be moved; a slot where it is more than nothing
  Vec3 slot_along = {};             // an axis direction
};

/// Makes it; or says why it cannot be made there, in words that follow "it ...".
[[nodiscard]] std::optional<std::string> make_hole(Build& build, InstanceId id, const RoundHole& hole);

/// Steel that stays between a hole and an edge or another hole: as much as the part is thick, and no more than is asked
/// for (common practice of laser cutting, where narrower webs burn away).
[[nodiscard]] double web_mm(double thickness_mm);
/// Likewise in a part that the shop cuts from sheet, and no less than it cuts (cutter.smallest_web).
[[nodiscard]] double cut_web_mm(const Build& build, double thickness_mm);
/// Likewise, and so much that it does not ask (cutter.asked_below).
[[nodiscard]] double unasked_web_mm(const Build& build, double thickness_mm);

/// Says that a hole of this diameter cannot be made, once for each place and reason: what `of` needs it, `in` what, and
/// what to do.
void say_no_room(Build& build, const Place& place, double diameter_mm, const std::string& of, InstanceId in,
                 const std::string& problem, const std::string& remedy = "move it or choose another size");

/// Whether it was said with these words at that place: the same words of the same place are one cause.
[[nodiscard]] bool is_said(const Build& build, std::string_view id, const Place& place, const std::string& words);

/// One thing a screw passes, from..to along the screw from the head's seat.
struct Layer {
  InstanceId instance = 0;
  double from_mm = 0;
  double to_mm = 0;
};

/// A button-head screw from the seat along `direction` through plates and legs, with all that goes with it: holes,
/// joints, the fastener. Every layer but the last gets a clearance hole (ISO 273 medium), the first one a slot where
/// `slot_mm` is more than nothing, and then a washer under the head. What is in or behind the last layer follows from
/// `fixing`: a thread, a washer and a nut, a weld nut, a rivet nut; `by_rule`, where there is too little for a thread,
/// the first of a weld nut, a rivet nut and a nut that holds there. Chooses the shortest stock length that fills the
/// thread. Says so where there is too little thread, no room for a hole, or no seat for what stands behind.
struct ScrewPlace {
  std::string thread;
  Place thread_place;
  Vec3 seat;
  Vec3 direction;
  std::vector<Layer> layers;
  std::string name;
  Origin origin;
  std::optional<InstanceId> behind;  // lies on the last layer: gets a clearance hole if the tip comes through
  ScrewFixing fixing = ScrewFixing::tapped;
  std::string fixing_key = {};  // the spec key that asks for it; empty where there is none
  double slot_mm = 0;
  Vec3 slot_along = {};
  const ScrewSpec* screws = nullptr;  // of a cover: what its nut strips measure
  std::size_t threaded = 1;           // so many of the last layers, welded to each other, are tapped as one
  bool by_rule = false;               // the fixing is not stated
};
/// How far a screw may be moved in its slot: as the spec says, else as far as a welded frame may be off either way in
/// that direction (ISO 13920-B); 0 in a round hole.
[[nodiscard]] double slot_mm_of(const Build& build, const Sourced<HoleShape>& hole,
                                const std::optional<Sourced<Length>>& slot, Vec3 along);

void add_screw(Build& build, const ScrewPlace& place);

/// What is laid on `host` afterwards gets clearance holes for the screws that come through there.
/// `remedy`: what to do where there is no room for one.
void clear_screw_tips(Build& build, InstanceId host, InstanceId laid_on,
                      const std::string& remedy = "move it or choose another size");

/// From `low` to `high`, both included, evenly, no step larger than `largest_step_mm`.
[[nodiscard]] std::vector<double> spread(double low, double high, double largest_step_mm);
/// The same without the ends.
[[nodiscard]] std::vector<double> spread_between(double low, double high, double largest_step_mm);

}  // namespace fitup::plan

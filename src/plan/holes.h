#pragma once
// Holes placed in the world, and screws with everything they pass. Private to the plan.

#include <optional>
#include <string>
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
};

/// Makes it; or says why it cannot be made there, in words that follow "it ...".
[[nodiscard]] std::optional<std::string> make_hole(Build& build, InstanceId id, const RoundHole& hole);

/// Says that a hole of this diameter cannot be made, once for each place and reason: what `of` needs it, `in` what.
void say_no_room(Build& build, const Place& place, double diameter_mm, const std::string& of, InstanceId in,
                 const std::string& problem);

/// One thing a screw passes, from..to along the screw from the head's seat.
struct Layer {
  InstanceId instance = 0;
  double from_mm = 0;
  double to_mm = 0;
};

/// A button-head screw from the seat along `direction`; the last layer is tapped, the others get a clearance
/// hole (ISO 273 medium). Chooses the shortest stock length that threads the last layer fully.
struct ScrewPlace {
  std::string thread;
  Place thread_place;
  Vec3 seat;
  Vec3 direction;
  std::vector<Layer> layers;
  std::string name;
  Origin origin;
  std::optional<InstanceId> behind;  // lies on the last layer: gets a clearance hole if the tip comes through
};
void add_screw(Build& build, const ScrewPlace& place);

/// What is laid on `host` afterwards gets clearance holes for the screws that come through there.
void clear_screw_tips(Build& build, InstanceId host, InstanceId laid_on);

/// From `low` to `high`, both included, evenly, no step larger than `largest_step_mm`.
[[nodiscard]] std::vector<double> spread(double low, double high, double largest_step_mm);
/// The same without the ends.
[[nodiscard]] std::vector<double> spread_between(double low, double high, double largest_step_mm);

}  // namespace fitup::plan

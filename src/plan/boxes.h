#pragma once
// Boxes on and under one another: in which order they are planned, where each of them stands. Private to the plan.

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "plan/build.h"

namespace fitup::plan {

/// A box that is planned and stands in the whole.
struct StandingBox {
  const BoxLayout* box = nullptr;
  Shell shell;                                        // in the box's own coordinates, its ids counted from `first`
  std::array<std::optional<InstanceId>, 6> panels{};  // likewise
  Vec3 corner;                                        // of its frame
  InstanceId first = 0;                               // of its instances in the whole

  [[nodiscard]] const BoxSpec& spec() const { return *box->spec; }
  [[nodiscard]] Box3 space() const { return {corner, corner + shell.size}; }
  [[nodiscard]] Host in_whole(const Host& host) const {
    return {host.id + first, {host.box.low + corner, host.box.high + corner}};
  }
};

/// The box that another one hangs below or stands on; empty for the one that stands for itself.
[[nodiscard]] const std::string& other_box(const BoxSpec& box);

/// The one that stands for itself, then those joined to it, each behind the one that it is joined to.
[[nodiscard]] std::vector<const BoxLayout*> in_order(const Layout& layout);

/// The level surface at which one box meets bearers: the top of its top ring or the underside of its bottom ring, or
/// the plate over it. All in the whole.
struct Seat {
  double z = 0;
  bool flat = true;  // legs lie there; else they stand on their toes
  std::vector<Host> hosts;
  std::optional<InstanceId> panel;    // covers the hosts
  double panel_mm = 0;                // its thickness
  std::array<Host, 2> lying;          // front and back: the legs that lie there, where it is flat
  std::array<double, 2> begins_mm{};  // free of a cover's flange or landing from here on, from the frame's front, back
  double side_mm = 0;                 // what the ring's sides take at the left and the right
  [[nodiscard]] bool is_face() const { return flat || panel; }
};
[[nodiscard]] Seat top_seat(const StandingBox& box);
[[nodiscard]] Seat bottom_seat(const StandingBox& box);

/// Where the corner of a box joined to `other` comes to be, with bearers of this height between.
[[nodiscard]] Vec3 corner_of(const StandingBox& own, const StandingBox& other, double bearer_mm);

/// Puts bearers between a box and the one that it is joined to, both in the whole.
void add_bearers(Build& whole, const StandingBox& own, const StandingBox& other);
/// How high they are.
[[nodiscard]] double bearer_height_mm(const BearersSpec& bearers);

/// Says which lift points have something of another box over them, where their eyes go.
void check_lift_points(Build& whole, const std::vector<StandingBox>& boxes);

}  // namespace fitup::plan

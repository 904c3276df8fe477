#pragma once
// What holds a screw behind the last thing that it passes. Private to the plan.

#include <optional>
#include <string>

#include "plan/holes.h"

namespace fitup::plan {

/// What a fixing asks of the thing it is in or on, and of the room behind it.
struct ScrewHold {
  ScrewFixing fixing = ScrewFixing::tapped;
  double hole_mm = 0;  // in the last thing the screw passes
  HoleKind hole = HoleKind::clear;
  std::string purpose;       // of that hole
  std::string noun;          // "a weld nut"
  double behind_mm = 0;      // how far it stands behind
  double seat_mm = 0;        // how wide its seat there is; 0 where there is none
  double across_mm = 0;      // across everything behind, corners included
  double screw_to_mm = 0;    // how far behind the screw must reach at least
  double engagement_mm = 0;  // length of thread
};
/// None where the tables have no such fixing for the thread.
[[nodiscard]] std::optional<ScrewHold> hold_of(ScrewFixing fixing, const Thread& thread, double last_mm);

/// The hole in what is laid on behind: for what stands there with a little room round it, or for the tip alone.
[[nodiscard]] double hole_behind_mm(const Thread& thread, const ScrewHold& hold);

/// How far a bolted rod plate's screw, or what holds it, stands out of the upright that it is screwed to.
[[nodiscard]] double screw_reach_mm(const RodPlatesSpec& plates, const Host& upright);
constexpr double tip_air_mm = 0.5;  // between such a tip and the cover's flange over it
/// Says that they do not go under the flange of a cover, and what makes room for them: a thread, where the upright
/// holds it and its tips stay in the gap that there is, or a larger gap; with another fixing where the upright holds no
/// thread.
void say_gap_too_small(Build& build, const RodPlatesSpec& plates, const Host& upright, Face face);
/// Fixing and slot of a bolted rod plate's screw.
void hold_as_said(const Build& build, const RodPlatesSpec& plates, ScrewPlace& place);

/// What speaks against it in or on the host, in words: "stands 2 mm on the root". `back` is where the screw's axis
/// leaves the host.
[[nodiscard]] std::optional<std::string> hold_problem(const Build& build, const ScrewHold& hold, InstanceId host,
                                                      Vec3 back, Vec3 direction, double last_mm);

/// Puts in what stands behind the host, joined to it and to the screw; returns what the screw is threaded into.
InstanceId add_hold(Build& build, const ScrewHold& hold, const ScrewPlace& place, InstanceId screw);

/// The washer that lies under the head on a slot.
void add_head_washer(Build& build, const ScrewPlace& place, InstanceId screw, InstanceId under);

}  // namespace fitup::plan

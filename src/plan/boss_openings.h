#pragma once
// What lift bosses need in the sheet or plate that closes the top. Private to the plan.

#include <array>
#include <vector>

#include "plan/build.h"

namespace fitup::plan {

/// Diameter of the hole that a boss's weld needs in a sheet above it.
[[nodiscard]] double boss_cut_out_mm(const Build& build, const LiftPoint& point);

/// From the frame's side at `edge` to the middle of a boss of that diameter, so that what closes the top keeps a web
/// between its own edge and that hole; 0 where nothing lies there that must.
[[nodiscard]] double clear_of_sheet_mm(Build& build, Face edge, double boss_diameter_mm);

/// From the side of a box of plates at `edge` to the middle of bosses at `ys` along it, so that their holes in the top
/// keep the web that the shop cuts beside the top's outline, which is relieved beside its tabs. `between` are the least
/// place and the most; the least where there is none between.
[[nodiscard]] double clear_of_reliefs_mm(const Build& build, Face edge, std::array<double, 2> between,
                                         const std::vector<double>& ys, double hole_radius_mm);

/// Cuts them into the panel that closes the top. In a flat sheet that is screwed on, one that would leave no web at an
/// edge is a notch there, its corners rounded; not at those in `held`, where a flange is.
void clear_bosses(Build& build, InstanceId panel, const std::vector<Face>& held = {});

}  // namespace fitup::plan

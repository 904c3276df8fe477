#pragma once
// Flat covers that lie on the frame itself, and the cut-outs that lift bosses need in what closes the top. Private to
// the plan.

#include <vector>

#include "plan/build.h"

namespace fitup::plan {

/// A cover of the left, the right, the top or the bottom that fills `sheet`, screwed into the bars and legs under it:
/// along the first axis of the face from end to end, along the second between those rows. Rows leave room for bosses;
/// a rail that lies where a screw comes through gets a hole.
void add_flat_cover(Build& build, Face face, const Box3& sheet, const std::vector<Host>& rails);

/// Diameter of the hole that a boss's weld needs in a sheet above it.
[[nodiscard]] double boss_cut_out_mm(const Build& build, const LiftPoint& point);

/// Cuts them into the panel that closes the top.
void clear_bosses(Build& build, InstanceId panel);

}  // namespace fitup::plan

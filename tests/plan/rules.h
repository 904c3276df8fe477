#pragma once
// What every derived end cut must keep to, as checks on numbers, outlines and places.

#include <string>
#include <vector>

#include "plan/stand.h"

namespace fitup::test {

/// What is wrong with the shape that is left, a line each; empty if a shop can make it: both outlines simple and in one
/// piece, whole at mid-length, no tongue or rest narrower than max(2 t, 10 mm), no step under 2 mm, corners inside
/// their tongues, both legs alike where they cross.
std::vector<std::string> shape_faults(const Member& member);

/// Places on what is left nearer than the gap to a bar before it, sampled on the corners and arcs of its pieces.
std::vector<std::string> clearance_faults(const Yielded& bar, const std::vector<plan::Obstacle>& earlier,
                                          double gap_mm);

/// Steps whose end face stands farther than `slack_mm` from everything it yields to, and 2 mm or more from the
/// nominal end.
std::vector<std::string> slack_faults(const plan::Obstacle& uncut, const Yielded& bar,
                                      const std::vector<plan::Obstacle>& earlier, double slack_mm);

/// Columns through the thickness that a grown bar enters and that are kept, by brute force on a grid.
std::vector<std::string> thickness_faults(const Yielded& bar, const std::vector<plan::Obstacle>& earlier,
                                          double gap_mm);

}  // namespace fitup::test

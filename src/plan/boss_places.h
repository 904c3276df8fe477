#pragma once
// Where lift bosses by rule stand along the sides: out of what a trial of the box has found kept clear. Private to the
// plan.

#include <array>
#include <optional>

#include "plan/build.h"

namespace fitup::plan {

/// One on each side, as near the middle as they may: where one gives way along Y the other does the other way, so that
/// the line between them stays over the middle; the one that is in the way goes to the front. Between `from_mm` and as
/// far from the back. None where nothing is free.
[[nodiscard]] std::optional<std::array<double, 2>> places_of_two(const Build& build, double from_mm, double step_mm);

/// Two on each side, as near the ends as they may: the distance of each from its end, `from_mm` or more. None where
/// nothing is free with `least_apart_mm` between the two.
[[nodiscard]] std::optional<double> place_of_four(const Build& build, double from_mm, double step_mm,
                                                  double least_apart_mm);

/// From the front along a side of a frame: where gussets end that go up to the leg that bosses stand in, with their bead
/// and that of a boss. 0 where there are none.
[[nodiscard]] double beyond_gussets_mm(const Build& build, Side side);

/// Which bosses by rule stand in a room that is kept clear, for another trial.
void keep_lift_points_clear(Build& build);

}  // namespace fitup::plan

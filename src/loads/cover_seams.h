#pragma once
// Check "seams" of flanged covers: what pulls a cover's sheet off its flanges goes through the seams between them.

#include <optional>

#include "fitup/findings.h"
#include "fitup/seams.h"

namespace fitup::loads {

/// How many times the mean over all four edges the most is that goes through a mm of the edge of a rectangular plate
/// under an even pressure q: q b / 2, what half the shorter side b collects (Roark, table 11.4 case 1a: 0.42 to 0.50 of
/// q b), over q a b / 2 (a + b).
[[nodiscard]] double edge_peak(double a_mm, double b_mm);

/// Covers are thrown off by their own mass; the items are held by their rods and rails, and what leans on a cover bears
/// on the frame. Nothing without such a cover; not checked where no acceleration is stated across it.
[[nodiscard]] std::optional<Finding> check_cover_seams(const Plan& plan, const Seams& seams);

}  // namespace fitup::loads

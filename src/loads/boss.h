#pragma once
// Check "bosses": what holds an eye: the thread in its boss, the boss's weld, the leg or the plate that it stands in.

#include <vector>

#include "fitup/findings.h"
#include "fitup/load_rules.h"
#include "fitup/seams.h"
#include "loads/lift.h"

namespace fitup::loads {

inline constexpr double eye_tensile_mpa = 410;  // of the least that forged eyes of C15E have (from memory)

/// Forces on a boss, N; the sling pulls at the middle of the eye's ring.
struct EyePull {
  double up_n = 0;
  double across_n = 0;
  double lever_mm = 0;  // of the pull across, above the middle of the leg
};

/// A strip that is clamped along a line, pulled at `arm_mm` from there: what `length_mm` of the line with a plastic
/// modulus of `modulus_mm2` for each mm holds (EN 1993-1-1, 6.2.5: a solid plate is of class 1).
[[nodiscard]] double strip_bending_mpa(const EyePull& pull, double arm_mm, double length_mm, double modulus_mm2);

/// A leg as such a strip, clamped along the root: what a boss of `width_mm` brings in spreads at 45 degrees (common
/// practice).
[[nodiscard]] double leg_bending_mpa(const EyePull& pull, double arm_mm, double width_mm, double thickness_mm);

/// The largest stress in the throats of the rings round a boss: pull, and the moment of the pull across.
[[nodiscard]] double ring_weld_mpa(const EyePull& pull, const std::vector<Seam>& rings);

[[nodiscard]] std::vector<Finding> check_bosses(const Plan& plan, const Seams& seams, const Weights& weights,
                                                const LoadRules& rules);

}  // namespace fitup::loads

#pragma once
// hole-fit: whether rods and screws find their holes, all at once, given how these are made.

#include <vector>

#include "fitup/findings.h"

namespace fitup::checks {

class KnownChances;

/// One finding for each pattern of the plan. `chances`: what is known of patterns from before, and is added to.
[[nodiscard]] std::vector<Finding> check_hole_fit(const Plan& plan, KnownChances* chances = nullptr);

/// ASME Y14.5, appendix B (published: worked_examples.csv W23): the diameter of the position tolerance of each of two
/// parts of which one holds the fastener, F the largest fastener and H the smallest hole; of which neither does.
[[nodiscard]] constexpr double fixed_fastener_tolerance_mm(double hole_mm, double fastener_mm) {
  return (hole_mm - fastener_mm) / 2;
}
[[nodiscard]] constexpr double floating_fastener_tolerance_mm(double hole_mm, double fastener_mm) {
  return hole_mm - fastener_mm;
}

/// The hole with which a pattern goes together however its holes are off within two standard deviations and its
/// fasteners within what they were measured to, and nothing is moved: by the same two formulas, solved for H.
[[nodiscard]] double worst_case_hole_mm(const PatternHole& hole);

/// The same pattern with holes of another class of ISO 273; those that a class does not say stay.
enum class IsoHole { close, medium, loose };
[[nodiscard]] Pattern with_holes(const Pattern& pattern, IsoHole hole);

}  // namespace fitup::checks

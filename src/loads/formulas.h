#pragma once
// Closed forms of handbooks and codes that several load checks use. Newtons, millimetres, megapascals.

#include <optional>

namespace fitup::loads {

/// How much more a sling is pulled than it lifts: 1 / sin of its angle from the horizontal.
[[nodiscard]] double sling_factor_from_horizontal(double angle_deg);

/// Roark, of a rectangular plate on supported edges under an even pressure: stress = beta q b^2 / t^2, deflection =
/// alpha q b^4 / (E t^3), b the shorter side.
struct PlateFactors {
  double beta = 0;
  double alpha = 0;
};
/// Between the table's rows by straight lines; nothing outside of them.
[[nodiscard]] std::optional<PlateFactors> plate_factors(double a_over_b);

/// Design strength of a fillet's throat by the simplified method of EN 1993-1-8, 4.5.3.3: fu / (sqrt 3 beta_w
/// gamma_M2).
[[nodiscard]] double weld_strength_en_mpa(double tensile_mpa, double beta_w, double gamma_m2 = 1.25);
/// AWS D1.1 and AISC allowable stress on the throat: 0.30 F_EXX.
[[nodiscard]] double weld_allowable_aws_mpa(double electrode_mpa);
/// AWS D1.1, table 7.7: least leg for the thinner part, low-hydrogen process; it need not exceed the part.
[[nodiscard]] double least_leg_mm(double thinner_mm);

/// Which of the European buckling curves: a 0.21, b 0.34, c 0.49, d 0.76 (EN 1993-1-1, table 6.1).
enum class BucklingCurve { a, b, c, d };
/// How slender a strut is: its length over its radius of gyration, beside the length at which Euler's load is its
/// yield.
[[nodiscard]] double slenderness(double length_mm, double gyration_mm, double yield_mpa, double e_mpa);
/// What is left of its yield load, EN 1993-1-1, 6.3.1.2: 1 / (Phi + sqrt(Phi^2 - l^2)), at most 1.
[[nodiscard]] double buckling_factor(double slenderness, BucklingCurve curve);

}  // namespace fitup::loads

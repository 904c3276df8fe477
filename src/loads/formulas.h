#pragma once
// Closed forms of handbooks and codes that several load checks use. Newtons, millimetres, megapascals.

#include <optional>

namespace fitup::loads {

/// How much more a sling at an angle is pulled than it lifts: length over height, 1 / cos of the angle from vertical.
[[nodiscard]] double sling_factor(double length_mm, double height_mm);
[[nodiscard]] double sling_factor_from_horizontal(double angle_deg);

/// How a rectangular plate under an even pressure is held.
enum class PlateEdges { all_supported, all_fixed, one_free };

/// Roark: stress = beta q b^2 / t^2, deflection = alpha q b^4 / (E t^3), b the shorter side (of one_free: the free
/// edge). Of fixed edges beta is that of the middle of the longer edge.
struct PlateFactors {
  double beta = 0;
  double alpha = 0;
};
/// Between the table's rows by straight lines; nothing outside of them.
[[nodiscard]] std::optional<PlateFactors> plate_factors(PlateEdges edges, double a_over_b);

struct PlateBending {
  double stress_mpa = 0;
  double deflection_mm = 0;
};
[[nodiscard]] std::optional<PlateBending> plate_bending(PlateEdges edges, double a_mm, double b_mm, double thickness_mm,
                                                        double pressure_mpa, double e_mpa);

/// Deflection in the middle of a square plate on supports that do not come nearer, beyond half its thickness too:
/// bending and membrane share the pressure (Timoshenko and Woinowsky-Krieger, art. 101: w = 0.802 c (q c / E t)^(1/3)
/// of the membrane, c half a side).
[[nodiscard]] double square_plate_large_deflection_mm(double side_mm, double thickness_mm, double pressure_mpa,
                                                      double e_mpa);

/// Design strength of a fillet's throat by the simplified method of EN 1993-1-8, 4.5.3.3: fu / (sqrt 3 beta_w
/// gamma_M2).
[[nodiscard]] double weld_strength_en_mpa(double tensile_mpa, double beta_w, double gamma_m2 = 1.25);
/// AWS D1.1 and AISC allowable stress on the throat: 0.30 F_EXX.
[[nodiscard]] double weld_allowable_aws_mpa(double electrode_mpa);
/// AISC J2.4, LRFD, phi = 0.75: of a group with lengths along and across the load, the larger of the two sums.
[[nodiscard]] double weld_group_aisc_n(double leg_mm, double along_mm, double across_mm, double electrode_mpa);
/// One line of weld at an angle to the load: 0.75 x 0.60 F_EXX (1 + 0.5 sin^1.5).
[[nodiscard]] double weld_line_aisc_n(double leg_mm, double length_mm, double electrode_mpa, double angle_deg);
/// AWS D1.1, table 7.7: least leg for the thinner part, low-hydrogen process; it need not exceed the part.
[[nodiscard]] double least_leg_mm(double thinner_mm);

/// Which of the European buckling curves: a 0.21, b 0.34, c 0.49, d 0.76 (EN 1993-1-1, table 6.1).
enum class BucklingCurve { a, b, c, d };
/// How slender a strut is: its length over its radius of gyration, beside the length at which Euler's load is its
/// yield.
[[nodiscard]] double slenderness(double length_mm, double gyration_mm, double yield_mpa, double e_mpa);
/// What is left of its yield load, EN 1993-1-1, 6.3.1.2: 1 / (Phi + sqrt(Phi^2 - l^2)), at most 1.
[[nodiscard]] double buckling_factor(double slenderness, BucklingCurve curve);

/// Each of four attachments of a battery container, so many times the weight of a quarter of it (worked example W27).
[[nodiscard]] double attachment_force_n(double mass_kg, double accelerations_g, int attachments);

}  // namespace fitup::loads

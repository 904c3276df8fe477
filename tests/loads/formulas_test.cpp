// Closed forms against the worked examples and tables that published them.
#include "loads/formulas.h"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <numbers>
#include <vector>

#include "loads/hold_down.h"
#include "loads/seam_group.h"
#include "loads/thrown.h"
#include "loads/weld_limits.h"

namespace fitup::loads {
namespace {

constexpr double inch = 25.4;
constexpr double pound = 4.4482216;
constexpr double psi = pound / (inch * inch);
constexpr double e70_mpa = 70000 * psi;

// W01, W02 (a published sling page): 120 in of sling at a height of 96 in: 1.25; at 60 degrees 1.155.
TEST(Sling, FactorsAreThoseOfAPublishedTable) {
  const double angle_deg = std::asin(96.0 / 120) * 180 / std::numbers::pi;
  EXPECT_NEAR(1200 * sling_factor_from_horizontal(angle_deg), 1500, 1e-6);
  EXPECT_NEAR(sling_factor_from_horizontal(60), 1.155, 1.155e-3);
  EXPECT_NEAR(sling_factor_from_horizontal(45), 1.414, 1.414e-3);
  EXPECT_NEAR(sling_factor_from_horizontal(30), 2, 1e-9);
}

/// Navier's series of a simply supported plate: deflection and moment in the middle.
PlateFactors navier(double a_over_b) {
  constexpr double nu = 0.3;
  double w = 0, mx = 0, my = 0;
  for (int m = 1; m < 120; m += 2) {
    for (int n = 1; n < 120; n += 2) {
      const double kx = m / a_over_b, ky = n;
      const double sign = ((m + n) / 2) % 2 == 1 ? 1 : -1;
      const double q = 16 / (std::pow(std::numbers::pi, 2) * m * n) * sign;
      const double d = std::pow(kx * kx + ky * ky, 2);
      w += q / (std::pow(std::numbers::pi, 4) * d);
      mx += q / (std::pow(std::numbers::pi, 2) * d) * (kx * kx + nu * ky * ky);
      my += q / (std::pow(std::numbers::pi, 2) * d) * (ky * ky + nu * kx * kx);
    }
  }
  return {6 * std::max(mx, my), 12 * (1 - nu * nu) * w};
}

// W09, and the other rows: Roark's table 11.4 case 1a against Navier's series (within what the table rounds).
TEST(Plate, SimplySupportedIsNaviersSeries) {
  EXPECT_NEAR(plate_factors(1)->beta, 0.2874, 0.2874e-3);
  EXPECT_NEAR(plate_factors(1)->alpha, 0.0444, 0.0444e-3);
  EXPECT_NEAR(navier(1).beta, 0.2873, 0.2873e-3);
  EXPECT_NEAR(navier(1).alpha, 0.0444, 0.0444 * 2e-3) << "as far as the table rounds";
  for (const double a_over_b : {1.0, 1.2, 1.4, 1.6, 1.8, 2.0, 3.0, 4.0, 5.0}) {
    const auto table = plate_factors(a_over_b);
    EXPECT_NEAR(table->beta, navier(a_over_b).beta, 1e-3) << a_over_b;
    EXPECT_NEAR(table->alpha, navier(a_over_b).alpha, 1e-3) << a_over_b;
  }
  EXPECT_FALSE(plate_factors(0.9)) << "b is the shorter side";
}

// EN 1993-1-8 (a published weld example: 261.73 MPa for S355 with fu 510; the others computed from the code's formula).
TEST(Weld, StrengthOfTheSimplifiedMethod) {
  EXPECT_NEAR(weld_strength_en_mpa(510, 0.9), 261.73, 0.01);
  EXPECT_NEAR(weld_strength_en_mpa(360, 0.8), 207.85, 0.01);
  // The same example: 200 kN on two seams of 298 mm, a = 3: 335.6 N/mm of 785.2 N/mm.
  EXPECT_NEAR(200000.0 / (2 * 298), 335.6, 0.1);
  EXPECT_NEAR(3 * weld_strength_en_mpa(510, 0.9), 785.2, 0.1);
}

LoadRules by_aws() {
  LoadRules rules;
  rules.welds = WeldCode::aws_d1_1;
  rules.electrode.tensile_mpa = e70_mpa;
  return rules;
}

double throat_of(double leg_in) { return leg_in * inch / std::sqrt(2.0); }

/// What makes the stress in a line's throat as large as the allowable one, by how the program works both out.
double allowed_n(double leg_in, double length_in) {
  const Vec3 end{length_in * inch, 0, 0};
  const auto stress = throat_stress({{{}, end, throat_of(leg_in)}}, {1, 0, 0}, 0.5 * end);
  return weld_limit(by_aws(), Strength{}, LoadKind::thrown).mpa / stress->mpa;
}

// W15 (Shigley, table 9-6): 3/8 in of E70 fillet over 4 in: 22.28 kip.
TEST(Weld, AllowableOfATextbook) {
  EXPECT_NEAR(allowed_n(0.375, 4) / pound / 1000, 22.28, 22.28 * 2e-3);
  EXPECT_NEAR(allowed_n(0.375, 4) / 1000, 99.1, 99.1 * 2e-3);
}

// W16 (published lecture notes on AISC J2, LRFD): a line of 3/4 in over 8 in: 133.62 kip along its length; two of 10 in along
// and one of 8 in across, 3/16 in, with 0.85 and 1.5 times these: 121.10 kip. LRFD's 0.75 x 0.60 F_EXX is 1.5 times the 0.30
// that is allowed; across its length, too, a line counts as along it.
TEST(Weld, LinesOfAisc) {
  const double lrfd = 0.75 * 0.60 / 0.30;
  EXPECT_NEAR(lrfd * allowed_n(0.75, 8) / pound / 1000, 133.62, 0.05);
  const double notes_throat = 0.707 * std::sqrt(2.0);  // theirs beside the leg over the root of 2
  const double by_notes = 0.85 * allowed_n(3.0 / 16, 20) + 1.5 * allowed_n(3.0 / 16, 8);
  EXPECT_NEAR(notes_throat * lrfd * by_notes / pound / 1000, 121.10, 121.10e-4);
  // The program's group of all three does not use what a line across has more.
  const std::vector<WeldLine> group{{{0, 0, 0}, {10 * inch, 0, 0}, throat_of(3.0 / 16)},
                                    {{0, 8 * inch, 0}, {10 * inch, 8 * inch, 0}, throat_of(3.0 / 16)},
                                    {{0, 0, 0}, {0, 8 * inch, 0}, throat_of(3.0 / 16)}};
  const auto stress = throat_stress(group, {121.10 * 1000 * pound / lrfd, 0, 0}, {4 * inch, 4 * inch, 0});
  EXPECT_GT(stress->mpa, weld_limit(by_aws(), Strength{}, LoadKind::thrown).mpa);
}

// AWS D1.1 table 7.7.
TEST(Weld, LeastLegByThickness) {
  EXPECT_EQ(least_leg_mm(6), 3);
  EXPECT_EQ(least_leg_mm(2), 2) << "need not exceed the thinner part";
  EXPECT_EQ(least_leg_mm(10), 5);
  EXPECT_EQ(least_leg_mm(25), 8);
}

// EN 1993-1-1, 6.3.1: the curves' values at slenderness 1 and 2, as handbooks print them (from memory): a 0.666 and
// 0.223, b 0.597 and 0.209, c 0.540 and 0.196, d 0.467 and 0.177.
TEST(Buckling, IsTheCurvesOfTheCode) {
  const std::array<std::array<double, 2>, 4> printed{{{0.666, 0.223}, {0.597, 0.209}, {0.540, 0.196}, {0.467, 0.177}}};
  for (std::size_t i = 0; i < 4; ++i) {
    EXPECT_NEAR(buckling_factor(1, static_cast<BucklingCurve>(i)), printed[i][0], 6e-4);
    EXPECT_NEAR(buckling_factor(2, static_cast<BucklingCurve>(i)), printed[i][1], 6e-4);
  }
  EXPECT_EQ(buckling_factor(0.2, BucklingCurve::c), 1);
  // At slenderness 1 Euler's load is the yield load: pi^2 E I / L^2 = A f.
  const double l = std::numbers::pi * 10 * std::sqrt(210000 / 235.0);
  EXPECT_NEAR(slenderness(l, 10, 235, 210000), 1, 1e-12);
}

// W27: a container of 60 kg on four attachments, pulled off them at 40 g, and thrown along them.
TEST(HoldDown, ForceOnAnAttachment) {
  const std::vector<Vec3> four{{0, 0, 0}, {400, 0, 0}, {400, 200, 0}, {0, 200, 0}};
  const double force = 60 * 40 * gravity;
  for (const Vec3 f : forces_on_bolts(four, axis::z, {0, 0, force}, {200, 100, 80})) EXPECT_NEAR(f.z, 5884, 5.884);
  for (const Vec3 f : forces_on_bolts(four, axis::z, {force, 0, 0}, {200, 100, 0})) EXPECT_NEAR(f.x, 5884, 5.884);
}

}  // namespace
}  // namespace fitup::loads

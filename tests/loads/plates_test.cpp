// Plates against Navier's series, Roark's table and Levy's solutions; seals between their screws.
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "loads/plate_grid.h"
#include "loads/rectangle_plate.h"
#include "loads/seal_check.h"

namespace fitup::loads {
namespace {

constexpr double e = 210000;

/// Navier's series of a simply supported plate: deflection in the middle.
double navier_deflection(double a, double b, double t, double q) {
  const double d = e * t * t * t / (12 * (1 - 0.09));
  double w = 0;
  for (int m = 1; m < 60; m += 2) {
    for (int n = 1; n < 60; n += 2) {
      const double sign = ((m + n) / 2) % 2 == 1 ? 1 : -1;
      w += sign / (m * n * std::pow(m * m / (a * a) + n * n / (b * b), 2));
    }
  }
  return 16 * q / (std::pow(std::numbers::pi, 6) * d) * w;
}

PlateBent grid_bent(double a, double b, std::size_t cells, PlateNode edges) {
  return *bend(plate_grid({{0, 0}, {a, b}}, cells, cells, 2, edges), 0.001);
}

// Twice as fine quarters the error, down to about a thousandth.
TEST(PlateGrid, ConvergesToNaviersSeries) {
  for (const double a : {400.0, 600.0}) {
    const double exact = navier_deflection(a, 400, 2, 0.001);
    double before = 1e9;
    for (const std::size_t cells : {4U, 8U, 16U, 32U}) {
      const double off = std::abs(grid_bent(a, 400, cells, PlateNode::held).deflection_mm - exact) / exact;
      EXPECT_LT(off, before / 3) << a << " in " << cells;
      before = off;
    }
    EXPECT_LT(before, 1.5e-3);
  }
}

// Of a simply supported square the largest von Mises stress is at the corners, where Timoshenko's reaction of 0.065 q
// a^2 is twice the twisting moment: 6 x 0.0325 sqrt 3 = 0.3377 of q (a / t)^2. Roark, table 11.4 case 8a, all edges
// fixed: beta 0.3078 at the middle of an edge and alpha 0.0138.
TEST(PlateGrid, HasTheStressesAndDeflectionsOfHandbooks) {
  const double per = 0.001 * 200 * 200;  // q (a / t)^2
  EXPECT_NEAR(grid_bent(400, 400, 32, PlateNode::held).stress_mpa / per, 0.3377, 0.002);
  const PlateBent fixed = grid_bent(400, 400, 32, PlateNode::clamped);
  EXPECT_NEAR(fixed.deflection_mm / (0.001 * std::pow(400, 4) / (e * 8)), 0.0138, 0.0002);
  // At the edge the other stress is 0.3 of it: von Mises 0.889 of beta.
  EXPECT_NEAR(fixed.stress_mpa / per, 0.3078 * std::sqrt(1 - 0.3 + 0.09), 0.006);
}

// A worked page on Roark's 5th edition, table 26 case 2a, one edge free: 15 in by 12 in, the free edge 12 in, 1/4 in
// thick, 100 psi: 165900 psi and 0.664 in, with beta 0.72 and alpha 0.15 as read there from between the rows.
TEST(PlateGrid, WithOneFreeEdgeIsAWorkedPage) {
  constexpr double inch = 25.4;
  constexpr double psi = 4.4482216 / (inch * inch);
  PlateGrid grid = plate_grid({{0, 0}, {15 * inch, 12 * inch}}, 40, 32, inch / 4, PlateNode::held);
  grid.e_mpa = 30e6 * psi;
  for (std::size_t j = 1; j < grid.ny; ++j) grid.nodes[grid.node(grid.nx, j)] = PlateNode::free;
  const PlateBent bent = *bend(grid, 100 * psi);
  EXPECT_NEAR(bent.deflection_mm / inch, 0.664, 0.02 * 0.664);
  EXPECT_NEAR(bent.stress_mpa / psi, 165900, 0.02 * 165900);
  EXPECT_NEAR(bent.deflects_at.x, 15 * inch, 1e-6);
}

TEST(PlateGrid, PatchOfOneCurvatureIsMetExactly) {
  // A strip one cell wide, held at both ends and free along its sides, without Poisson's effect: 5 q L^4 / 384 E I.
  PlateGrid strip = plate_grid({{0, 0}, {300, 20}}, 30, 1, 2, PlateNode::free);
  strip.poisson = 0;
  for (const std::size_t i : {0U, 30U}) {
    for (const std::size_t j : {0U, 1U}) strip.nodes[strip.node(i, j)] = PlateNode::held;
  }
  const double inertia = 20 * 8 / 12.0;
  EXPECT_NEAR(bend(strip, 0.001)->deflection_mm, 5 * 0.001 * 20 * std::pow(300, 4) / (384 * e * inertia), 1e-3);
}

TEST(PlateGrid, AHoleMakesItGiveMoreAndAFloatingPlateIsNone) {
  Profile plate{Loop::rectangle({0, 0}, {400, 300}), {Loop::rectangle({150, 100}, {250, 200})}};
  const Box2 area{{0, 0}, {400, 300}};
  const PlateBent holed = *bend(plate_grid(plate, area, 12.5, 2), 0.001);
  plate.holes.clear();
  const PlateBent whole = *bend(plate_grid(plate, area, 12.5, 2), 0.001);
  EXPECT_GT(holed.stress_mpa, 1.2 * whole.stress_mpa);
  EXPECT_FALSE(bend(plate_grid(area, 4, 4, 2, PlateNode::free), 0.001));
}

// Levy, NACA report 737 (from memory): a simply supported square plate whose edges stay, Poisson's ratio 0.316: w / t
// 0.5, 1, 1.5 and 2 at q a^4 / (E t^4) = 14.78, 51.4, 132.0 and 278.5; whose edges come in freely: 0.486 at 12.1, 0.962
// at 29.4.
TEST(LargeDeflections, AreLevys) {
  const double pi = std::numbers::pi;
  const double nu = 0.316;
  const double bending = pi * pi / 16 * 4 * std::pow(pi, 4) / (12 * (1 - nu * nu));
  const auto pressure = [&](double w, EdgesInPlane edges) {
    return bending * w + membrane_stiffness(1, 1, 1, 1, edges, nu) * w * w * w;
  };
  for (const auto& [w, q] : {std::pair{0.5, 14.78}, {1.0, 51.4}, {1.5, 132.0}, {2.0, 278.5}}) {
    EXPECT_NEAR(pressure(w, EdgesInPlane::fixed), q, 0.01 * q) << w;
  }
  for (const auto& [w, q] : {std::pair{0.486, 12.1}, {0.962, 29.4}}) {
    EXPECT_NEAR(pressure(w, EdgesInPlane::free), q, 0.05 * q) << w;
  }
}

TEST(LargeDeflections, BeginAtHalfTheThicknessAndAreLessThanRoarks) {
  const PlateFactors f = *plate_factors(1.5);
  const auto roark = [&](double q) {
    return PlateState{f.alpha * q * std::pow(400, 4) / (e * 8), f.beta * q * 400 * 400 / 4, false};
  };
  const double half = 1 / (roark(1).deflection_mm);
  const PlateState little = supported_plate(600, 400, 2, 0.99 * half, e, EdgesInPlane::free);
  EXPECT_FALSE(little.large);
  EXPECT_NEAR(little.deflection_mm, roark(0.99 * half).deflection_mm, 1e-9);
  EXPECT_NEAR(little.stress_mpa, roark(0.99 * half).stress_mpa, 1e-9);
  const PlateState much = supported_plate(600, 400, 2, 4 * half, e, EdgesInPlane::free);
  const PlateState stays = supported_plate(600, 400, 2, 4 * half, e, EdgesInPlane::fixed);
  EXPECT_TRUE(much.large);
  EXPECT_LT(much.deflection_mm, roark(4 * half).deflection_mm);
  EXPECT_LT(stays.deflection_mm, much.deflection_mm);
}

// q s^4 / (384 E I) of a span among many, q L^4 / (8 E I) of a cantilever: by hand for a strip of 25 x 2: I = 16.67
// mm4.
TEST(Seals, BowAsAStripBetweenItsScrews) {
  EXPECT_NEAR(bow_mm(0.63, 120, 25, 2, e), 0.63 * 120.0 * 120 * 120 * 120 / (384 * e * 200 / 12), 1e-12);
  EXPECT_NEAR(bow_mm(1, 200, 25, 2, e) / bow_mm(1, 100, 25, 2, e), 16, 1e-9) << "with the fourth power of the span";
  EXPECT_NEAR(corner_bow_mm(0.63, 40, 25, 2, e), 0.63 * std::pow(40, 4) / (8 * e * 200 / 12), 1e-12);
  EXPECT_NEAR(usual_seal_pressure_kpa(0.25), 63, 1e-9);
}

/// A strip 1 mm wide between lines that stay, turning freely at them, under an even load: the tie-beam that Timoshenko
/// and Woinowsky-Krieger solve (Theory of Plates and Shells, art. 2; of a beam here, D = E t^3 / 12), its pull S such that
/// it is as much longer as its curve is.
struct TieBeam {
  double q, l, t, e;
  double u = 0;  // u^2 = S l^2 / 4 D

  [[nodiscard]] double d() const { return e * t * t * t / 12; }
  [[nodiscard]] double at(double x) const {
    return q * std::pow(l, 4) / (16 * std::pow(u, 4) * d()) * (std::cosh(u * (1 - 2 * x / l)) / std::cosh(u) - 1) +
           q * l * l * x * (l - x) / (8 * u * u * d());
  }
  [[nodiscard]] double pull() const { return 4 * u * u * d() / (l * l); }
  /// What its curve is longer by, less what the pull draws out.
  [[nodiscard]] double slack() const {
    constexpr int pieces = 400;
    double longer = 0;
    for (int i = 0; i < pieces; ++i) {
      const double rise = at(l * (i + 1) / pieces) - at(l * i / pieces);
      longer += rise * rise / (2 * l / pieces);
    }
    return longer - pull() * l / (e * t);
  }
  void solve() {
    double low = 1e-3, high = 100;
    for (int i = 0; i < 80; ++i) {
      u = (low + high) / 2;
      (slack() > 0 ? low : high) = u;
    }
  }
  [[nodiscard]] double stress() const {
    const double moment = q * l * l / 8 * 2 * (1 - 1 / std::cosh(u)) / (u * u);
    return pull() / t + 6 * moment / (t * t);
  }
};

TEST(HeldStrip, BetweenLinesThatStayIsTheTieBeamOnTheSafeSide) {
  for (const double q : {0.0005, 0.003, 0.02, 0.1}) {
    TieBeam exact{q, 600, 3, 210000};
    exact.solve();
    const double bent = 5 * q * std::pow(600.0, 4) / (384 * exact.d());
    const HeldStrip strip = strip_between_lines_that_stay(bent, 600, 3, 210000);
    const double stress = strip.bent_share * 6 * q * 600 * 600 / 8 / 9 + strip.membrane_mpa;
    EXPECT_NEAR(strip.deflection_mm, exact.at(300), 0.03 * exact.at(300)) << q;
    EXPECT_NEAR(strip.membrane_mpa, exact.pull() / 3, 0.02 * stress) << q;
    EXPECT_GT(stress, 0.99 * exact.stress()) << q;
    EXPECT_LT(stress, 1.2 * exact.stress()) << q;
  }
  EXPECT_EQ(strip_between_lines_that_stay(0, 600, 3, 210000).membrane_mpa, 0);
}

}  // namespace
}  // namespace fitup::loads

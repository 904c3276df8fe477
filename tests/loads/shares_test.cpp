// Shares of a hanging load: worked examples, closed forms, laws.
#include "loads/shares.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <numeric>

#include "loads/strength.h"

namespace fitup::loads {
namespace {

using testing::Each;

const std::vector<Vec2> rectangle{{0, 0}, {800, 0}, {800, 500}, {0, 500}};

// Worked example W03 (a published rigging page): 10000 lb, 8 ft from the far point and 2 ft from the near one.
TEST(Shares, OfTwoPointsFollowTheLever) {
  const Shares s = shares_of({{0, 0}, {10, 0}}, {2, 0});
  EXPECT_NEAR(10000 * s.worst[0], 8000, 1e-5);
  EXPECT_NEAR(10000 * s.worst[1], 2000, 1e-5);
}

// What hangs on two points turns about the line between them: how far beside it the centre of mass lies does not matter.
TEST(Shares, OfTwoPointsCountAlongTheirLineAlone) {
  const Shares s = shares_of({{0, 0}, {1000, 0}}, {250, 80});
  EXPECT_NEAR(s.worst[0], 0.75, 1e-12);
  EXPECT_NEAR(s.worst[1], 0.25, 1e-12);
  EXPECT_EQ(s.outside_mm, 0);
  EXPECT_NEAR(shares_of({{0, 0}, {1000, 0}}, {1030, 80}).outside_mm, 30, 1e-9);
  EXPECT_TRUE(shares_of({{0, 0}, {1000, 0}}, {1030, 80}).ways.empty());
}

// A published test of four legs on a rigid load: two take nearly all of it (348, 303, 23, 18 of about 700 kgf).
TEST(Shares, OfFourLegsInTheMiddleOfARectangleAreHalfEach) {
  const Shares s = shares_of(rectangle, {400, 250});
  EXPECT_THAT(s.worst, Each(testing::DoubleNear(0.5, 1e-12)));
  EXPECT_EQ(s.pairs, 2U);
}

// Off the middle no pair balances. Of the triples the two with the point's own corner give it the most: by hand, with
// the centre a tenth of each side from the middle towards the first corner, at (320, 200): barycentric in the triangle
// of corners 1, 2 and 4 it is 1 - 0.4 - 0.4 = 0.2, of corners 1, 2, 3 (1: 1 - 0.4, 2: 0.4 - 0.4, 3: 0.4).
TEST(Shares, OffTheMiddleTheNearCornerTakesMore) {
  const Shares s = shares_of(rectangle, {320, 200});
  EXPECT_NEAR(s.worst[0], 0.6, 1e-12);
  EXPECT_NEAR(s.worst[2], 0.4, 1e-12);
  EXPECT_EQ(s.outside_mm, 0);
}

TEST(Shares, OfThreeLegsAddUpAndBalance) {
  const std::vector<Vec2> p{{0, 0}, {600, 0}, {100, 400}};
  const Vec2 c{210, 130};
  const Shares s = shares_of(p, c);
  EXPECT_NEAR(std::accumulate(s.worst.begin(), s.worst.end(), 0.0), 1, 1e-12);
  Vec2 at;
  for (std::size_t i = 0; i < 3; ++i) at = at + s.worst[i] * p[i];
  EXPECT_NEAR(at.x, c.x, 1e-9);
  EXPECT_NEAR(at.y, c.y, 1e-9);
}

TEST(Shares, OutsideTheirHullNothingBalances) {
  const Shares s = shares_of(rectangle, {400, -35});
  EXPECT_EQ(s.triples + s.pairs, 0U);
  EXPECT_NEAR(s.outside_mm, 35, 1e-9);
  EXPECT_NEAR(shares_of(rectangle, {-30, -40}).outside_mm, 50, 1e-9);
}

TEST(Shares, DoNotDependOnTheOrderOfThePointsOrOnWhereTheyLie) {
  const Shares s = shares_of(rectangle, {300, 210});
  const Shares turned = shares_of({rectangle[2], rectangle[0], rectangle[3], rectangle[1]}, {300, 210});
  EXPECT_NEAR(s.worst[0], turned.worst[1], 1e-12);
  std::vector<Vec2> moved = rectangle;
  for (Vec2& p : moved) p = p + Vec2{1000, -70};
  EXPECT_NEAR(s.worst[1], shares_of(moved, {1300, 140}).worst[1], 1e-12);
}

// Worked example W05 (a published page on thread engagement): M10 x 1.5, bolt 830 MPa, tapped 6061-T6 of 310 MPa, 10
// mm.
TEST(ThreadStrength, OfAWorkedExample) {
  const Thread& m10 = *tables::find_thread("M10");
  const ThreadStrength s = thread_strength(m10, 10, 830, 310);
  EXPECT_NEAR(s.inner_n, 51130, 51130 * 2e-3);
  EXPECT_NEAR(s.outer_n, 98290, 98290 * 2e-3);
  EXPECT_NEAR(s.tensile_n, 48130, 48130 * 2e-3);
  EXPECT_NEAR(m10.stress_area_mm2, 57.99, 57.99 * 2e-3);
  // There: 9.414 mm make the tapped thread as strong as the bolt.
  EXPECT_NEAR(thread_strength(m10, 9.414, 830, 310).inner_n, s.tensile_n, s.tensile_n * 2e-3);
}

// Worked example W07 (published proof loads): M8 of 8.8 and 10.9; W08: stress area of M12.
TEST(ThreadStrength, OfTheProofLoadTables) {
  EXPECT_NEAR(tables::find_thread("M8")->stress_area_mm2 * 580, 21200, 21200 * 2e-3);
  EXPECT_NEAR(tables::find_thread("M8")->stress_area_mm2 * 830, 30400, 30400 * 2e-3);
  EXPECT_NEAR(tables::find_thread("M12")->stress_area_mm2, 84.3, 84.3e-3);
}

TEST(Strength, IsTheStandardsLeastByThickness) {
  EXPECT_EQ(strength_of("S235JR", 16)->yield_mpa, 235);
  EXPECT_EQ(strength_of("S235JR", 20)->yield_mpa, 225);
  EXPECT_FALSE(strength_of("S235JR", 60));
  EXPECT_FALSE(strength_of("cheese", 4));
}

}  // namespace
}  // namespace fitup::loads

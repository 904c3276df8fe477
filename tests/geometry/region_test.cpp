// Regions against closed forms: which side, overlap, touch, clear, and shadows. Every expectation follows from
// distances and radii written beside it.
#include "geometry/region.h"

#include <algorithm>
#include <cmath>

#include <gtest/gtest.h>

#include "geometry/shadow_within.h"

namespace fitup::geometry {
namespace {

constexpr double band = 1e-4;

Region disc(double x, double y, double r) { return Region({Loop::circle({x, y}, r), {}}); }
Region box(double x0, double y0, double x1, double y1) { return Region({Loop::rectangle({x0, y0}, {x1, y1}), {}}); }
Region box_with(double x0, double y0, double x1, double y1, std::vector<Loop> holes) {
  return Region({Loop::rectangle({x0, y0}, {x1, y1}), std::move(holes)});
}

// An L of legs 40 and thickness 4 with root radius 6, heel at the origin: (4, 10) to (10, 4) round (10, 10).
Region angle_section() {
  Loop l;
  l.vertices = {{{0, 0}}, {{40, 0}}, {{40, 4}}, {{10, 4}, -std::tan(M_PI / 8)}, {{4, 10}}, {{4, 40}}, {{0, 40}}};
  return Region({l, {}});
}

Contact both_ways(const Region& a, const Region& b) {
  const Contact there = relate(a, b, band);
  EXPECT_EQ(there, relate(b, a, band)) << "relate is symmetric";
  return there;
}

TEST(Region, ContainsPointsInsideTheOutlineAndNotInHoles) {
  const Region plate = box_with(0, 0, 20, 10, {Loop::circle({5, 5}, 2), Loop::rectangle({12, 2}, {16, 8})});
  EXPECT_TRUE(plate.contains({1, 1}));
  EXPECT_FALSE(plate.contains({5, 6.9}));
  EXPECT_TRUE(plate.contains({5, 7.1}));
  EXPECT_TRUE(plate.contains({7.01, 5}));
  EXPECT_FALSE(plate.contains({14, 5}));
  EXPECT_FALSE(plate.contains({-1, 5}));
  EXPECT_FALSE(plate.contains({21, 5}));
}

TEST(Region, ContainsCountsCornersOnTheLevelLineOnce) {
  const Region diamond({Loop::polygon({{0, -5}, {5, 0}, {0, 5}, {-5, 0}}), {}});
  EXPECT_TRUE(diamond.contains({0, 0}));
  EXPECT_FALSE(diamond.contains({-6, 0}));
  EXPECT_FALSE(diamond.contains({-6, 5}));
  EXPECT_FALSE(diamond.contains({-6, -5}));
  EXPECT_TRUE(disc(0, 0, 3).contains({-2.9, 0}));
  EXPECT_FALSE(disc(0, 0, 3).contains({-3.1, 0}));
  EXPECT_FALSE(disc(0, 0, 3).contains({-3.1, 3}));
}

TEST(Region, ContainsFollowsTheRootArcOfAnAngle) {
  const Region l = angle_section();
  const double on_arc = 10 - 6 / std::sqrt(2.0);  // 5.757 on the diagonal
  EXPECT_TRUE(l.contains({on_arc - 0.001, on_arc - 0.001}));
  EXPECT_FALSE(l.contains({on_arc + 0.001, on_arc + 0.001}));
}

TEST(Region, InnerPointLiesInside) {
  for (const Region& r : {angle_section(), disc(3, 4, 5), box_with(0, 0, 20, 10, {Loop::rectangle({1, 1}, {19, 9})})}) {
    EXPECT_TRUE(r.contains(r.inner_point()));
    EXPECT_GT(r.distance_to_outline_mm(r.inner_point()), 0.3);
  }
}

TEST(Region, DistanceToTheOutlineIsExact) {
  EXPECT_NEAR(disc(0, 0, 5).distance_to_outline_mm({3, 0}), 2, 1e-12);
  EXPECT_NEAR(angle_section().distance_to_outline_mm({10, 10}), 6, 1e-12);
  EXPECT_NEAR(angle_section().distance_to_outline_mm({50, 2}), 10, 1e-12);
  EXPECT_NEAR(angle_section().distance_to_outline_mm({43, -4}), 5, 1e-12);
}

struct Placed {
  double by;
  Contact expected;
};
// `by` is how far the two stand apart; negative: how deep they enter.
const std::vector<Placed> placed_to_touch{{0, Contact::touch},       {1e-6, Contact::touch},    {-1e-6, Contact::touch},
                                          {1e-3, Contact::clear},    {-1e-3, Contact::overlap}, {0.05, Contact::clear},
                                          {-0.05, Contact::overlap}, {5, Contact::clear}};

TEST(Relate, DiscBesideDisc) {
  for (const auto& [by, expected] : placed_to_touch) {
    EXPECT_EQ(both_ways(disc(0, 0, 10), disc((13 + by) * 0.6, (13 + by) * 0.8, 3)), expected) << by;
    EXPECT_EQ(relate_discs(disc(0, 0, 10), disc((13 + by) * 0.6, (13 + by) * 0.8, 3), band), expected) << by;
  }
}

TEST(Relate, DiscInARoundHole) {
  for (const auto& [by, expected] : placed_to_touch) {
    if (by > 1) continue;
    const Region plate = box_with(-20, -20, 20, 20, {Loop::circle({0, 0}, 5)});
    EXPECT_EQ(both_ways(plate, disc(2 - by, 0, 3)), expected) << by;
    EXPECT_EQ(both_ways(plate, disc(0, 0, 5 - by)), expected) << by;
    const auto quick = relate_discs(disc(2 - by, 0, 3), plate, band);
    EXPECT_EQ(quick.value_or(Contact::overlap), expected) << by;
  }
}

TEST(Relate, DiscOnTheFlatOfAnAngleAndInItsRoot) {
  for (const auto& [by, expected] : placed_to_touch) {
    if (by > 1) continue;
    EXPECT_EQ(both_ways(angle_section(), disc(20, 4 + 3 + by, 3)), expected) << by;
    // A disc of 2 in the root of 6: the centre stands 4 from the root's centre, towards the heel.
    const double c = 10 - (4 - by) / std::sqrt(2.0);
    EXPECT_EQ(both_ways(angle_section(), disc(c, c, 2)), expected) << by;
    // A disc of exactly the root radius lies on the whole arc.
    EXPECT_EQ(both_ways(angle_section(), disc(10 + by * std::sqrt(0.5), 10 + by * std::sqrt(0.5), 6)), expected) << by;
  }
}

TEST(Relate, SquareCornerInARootRadiusOverlaps) {
  EXPECT_EQ(both_ways(angle_section(), box(4, 4, 30, 30)), Contact::overlap);
  const double c = 10 - 6 / std::sqrt(2.0);
  for (const auto& [by, expected] : placed_to_touch) {
    if (by > 1) continue;
    EXPECT_EQ(both_ways(angle_section(), box(c + by, c + by, 30, 30)), expected) << by;
  }
}

TEST(Relate, RectanglesWithACommonEdge) {
  for (const auto& [by, expected] : placed_to_touch) {
    EXPECT_EQ(both_ways(box(0, 0, 10, 5), box(10 + by, 1, 20, 4)), expected) << by;
    EXPECT_EQ(relate_rectangles(box(0, 0, 10, 5), box(10 + by, 1, 20, 4), band), expected) << by;
    EXPECT_EQ(both_ways(box(0, 0, 10, 5), box(10 + by, 0, 20, 5)), expected) << by;
    EXPECT_EQ(both_ways(box(0, 0, 10, 5), box(10 + by, 5 + by, 20, 9)), expected) << "corner to corner " << by;
  }
}

TEST(Relate, TheSameRegionOverlapsItself) {
  EXPECT_EQ(both_ways(angle_section(), angle_section()), Contact::overlap);
  EXPECT_EQ(both_ways(disc(1, 2, 3), disc(1, 2, 3)), Contact::overlap);
  const auto plate = box_with(0, 0, 20, 10, {Loop::circle({5, 5}, 2)});
  EXPECT_EQ(both_ways(plate, plate), Contact::overlap);
  EXPECT_EQ(both_ways(plate, plate.moved({1e-6, -1e-6})), Contact::overlap);
}

TEST(Relate, APlugThatFillsItsHoleTouches) {
  const auto plate = box_with(0, 0, 20, 10, {Loop::rectangle({5, 2}, {9, 8})});
  EXPECT_EQ(both_ways(plate, box(5, 2, 9, 8)), Contact::touch);
  EXPECT_EQ(both_ways(plate, box(5, 2, 9 - 1e-6, 8)), Contact::touch);
  EXPECT_EQ(both_ways(plate, box(5.1, 2.1, 8.9, 7.9)), Contact::clear);
  EXPECT_EQ(both_ways(plate, box(5, 2, 9.001, 8)), Contact::overlap);
  EXPECT_EQ(both_ways(plate, box(4, 1, 10, 9)), Contact::overlap) << "hole inside the other";
  EXPECT_EQ(both_ways(plate, box(6, 3, 8, 7)), Contact::clear);
}

TEST(Relate, ContainmentBothWays) {
  EXPECT_EQ(both_ways(box(0, 0, 10, 10), box(3, 3, 4, 4)), Contact::overlap);
  EXPECT_EQ(both_ways(disc(0, 0, 10), disc(1, 1, 2)), Contact::overlap);
  EXPECT_EQ(both_ways(box(0, 0, 10, 10), box(0, 0, 4, 4)), Contact::overlap) << "two edges in common";
}

TEST(Relate, ArcTouchesLine) {
  for (const auto& [by, expected] : placed_to_touch) {
    EXPECT_EQ(both_ways(box(0, 0, 100, 5), disc(50, 15 + by, 10)), expected) << by;
    EXPECT_EQ(both_ways(box(0, 0, 100, 5), disc(100 + (10 + by) * 0.6, 5 + (10 + by) * 0.8, 10)), expected)
        << "at a corner " << by;
  }
}

TEST(Relate, CrossingBarsOverlapWithoutACornerInsideTheOther) {
  EXPECT_EQ(both_ways(box(-10, -1, 10, 1), box(-1, -10, 1, 10)), Contact::overlap);
}

TEST(Relate, ANotchTakesWhatFitsIt) {
  const Region u({Loop::polygon({{0, 0}, {10, 0}, {10, 10}, {7, 10}, {7, 3}, {3, 3}, {3, 10}, {0, 10}}), {}});
  EXPECT_EQ(both_ways(u, box(3, 3, 7, 12)), Contact::touch);
  EXPECT_EQ(both_ways(u, box(3.5, 3.5, 6.5, 12)), Contact::clear);
  EXPECT_EQ(both_ways(u, box(3.5, 2.9, 6.5, 12)), Contact::overlap);
  EXPECT_EQ(both_ways(u, box(2.9, 11, 7.1, 12)), Contact::clear);
}

TEST(Relate, LoopSenseDoesNotMatter) {
  Loop turned = Loop::rectangle({0, 0}, {10, 5});
  std::reverse(turned.vertices.begin(), turned.vertices.end());
  EXPECT_EQ(both_ways(Region({turned, {}}), box(9.9, 1, 12, 2)), Contact::overlap);
}

TEST(Relate, IntervalsKeepTheBand) {
  EXPECT_EQ(relate_intervals({0, 1}, {1 + 0.9e-4, 2}, band), Contact::touch);
  EXPECT_EQ(relate_intervals({0, 1}, {1 + 1.1e-4, 2}, band), Contact::clear);
  EXPECT_EQ(relate_intervals({0, 1}, {1 - 0.9e-4, 2}, band), Contact::touch);
  EXPECT_EQ(relate_intervals({0, 1}, {1 - 1.1e-4, 2}, band), Contact::overlap);
}

void expect_intervals(const std::vector<Interval>& got, const std::vector<Interval>& expected) {
  ASSERT_EQ(got.size(), expected.size());
  for (std::size_t i = 0; i < got.size(); ++i) {
    EXPECT_NEAR(got[i].low, expected[i].low, 1e-9);
    EXPECT_NEAR(got[i].high, expected[i].high, 1e-9);
  }
}

TEST(Shadow, OfADiscClippedToAStrip) {
  const double half = std::sqrt(25.0 - 9.0);
  expect_intervals(shadow(disc(10, 20, 5), Axis2::x, {13, 30}), {{20 - half, 20 + half}});
  expect_intervals(shadow(disc(10, 20, 5), Axis2::x, {9, 30}), {{15, 25}});
  expect_intervals(shadow(disc(10, 20, 5), Axis2::y, {-10, 17}), {{10 - half, 10 + half}});
  EXPECT_TRUE(shadow(disc(10, 20, 5), Axis2::x, {15.1, 30}).empty());
  EXPECT_TRUE(shadow(disc(10, 20, 5), Axis2::x, {8, 8}).empty());
}

TEST(Shadow, OfAnAngleInTwoStrips) {
  expect_intervals(shadow(angle_section(), Axis2::x, {-1, 41}), {{0, 40}});
  expect_intervals(shadow(angle_section(), Axis2::x, {12, 20}), {{0, 4}});
  // At x = 10 - 6 sin 60 the root arc stands at y = 10 - 6 cos 60 = 7.
  expect_intervals(shadow(angle_section(), Axis2::x, {10 - 6 * std::sqrt(0.75), 20}), {{0, 7}});
}

TEST(Shadow, SplitsWhereAStripRunsThroughHoles) {
  const Region plate = box_with(0, 0, 20, 30, {Loop::rectangle({2, 5}, {18, 10}), Loop::circle({10, 20}, 4)});
  expect_intervals(shadow(plate, Axis2::x, {9, 11}), {{0, 5}, {10, 20 - std::sqrt(15.0)}, {20 + std::sqrt(15.0), 30}});
  expect_intervals(shadow(plate, Axis2::x, {1, 11}), {{0, 30}});
  expect_intervals(shadow(plate, Axis2::y, {6, 9}), {{0, 2}, {18, 20}});
}

std::vector<Interval> clipped(const std::vector<Interval>& pieces, Interval to) {
  std::vector<Interval> all;
  for (const Interval& p : pieces) {
    const Interval one{std::max(p.low, to.low), std::min(p.high, to.high)};
    if (one.high > one.low) all.push_back(one);
  }
  return all;
}

// A plate of 200 x 30 with a slot, a row of ten holes and one that strips cut in any way: in each window the same as
// the whole shadow, and beside the holes that it leaves out still inside or outside.
TEST(Shadow, WithinAWindowIsTheWholeOneThere) {
  std::vector<Loop> holes{Loop::rectangle({2, 5}, {14, 25}), Loop::circle({185, 15}, 12)};
  for (int i = 0; i < 10; ++i) holes.push_back(Loop::circle({25 + 15.0 * i, 15.0 + i % 3}, 5));
  const Region plate = box_with(0, 0, 200, 30, holes);
  std::size_t compared = 0;
  for (const Interval strip : {Interval{14, 16}, {-1, 31}, {19, 40}, {10, 11}, {3, 4}, {-5, 9.5}, {29, 31}}) {
    const auto whole = shadow(plate, Axis2::y, strip);
    for (double low = -20; low < 210; low += 7) {
      for (const double wide : {0.5, 4.0, 23.0, 150.0}) {
        const Interval window{low, low + wide};
        SCOPED_TRACE(testing::Message() << strip.low << " to " << strip.high << " in " << low << " and " << wide);
        expect_intervals(clipped(shadow_within(plate, Axis2::y, strip, window), window), clipped(whole, window));
        compared += clipped(whole, window).size();
      }
    }
  }
  EXPECT_GT(compared, 500U);
}

TEST(Shadow, SharedLengthIsTheLongestSharedOrTheLeastGap) {
  EXPECT_NEAR(*shared_length({{0, 5}, {10, 12}}, {{4, 11.5}}), 1.5, 1e-12);
  EXPECT_NEAR(*shared_length({{0, 5}}, {{5, 7}}), 0, 1e-12);
  EXPECT_NEAR(*shared_length({{0, 5}}, {{8, 9}, {7, 7.5}}), -2, 1e-12);
  EXPECT_FALSE(shared_length({}, {{0, 1}}).has_value());
}

}  // namespace
}  // namespace fitup::geometry

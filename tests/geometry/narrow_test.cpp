// Holes, slots, webs and inner corners against closed form.
// Entry: gtest.
#include "geometry/narrow.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "geometry/box_pairs.h"

namespace fitup::geometry {
namespace {

const Loop sheet = Loop::rectangle({0, 0}, {300, 200});

double least(const Profile& profile, NarrowKind kind, double up_to_mm = 20) {
  for (const NarrowPlace& p : narrow_places(profile, up_to_mm).places) {
    if (p.kind == kind) return p.width_mm;
  }
  return -1;
}

TEST(Narrow, AHoleIsItsDiameterAndAPlateWithoutHolesHasNothing) {
  EXPECT_TRUE(narrow_places({sheet, {}}, 50).places.empty());
  EXPECT_NEAR(least({sheet, {Loop::circle({50, 50}, 3)}}, NarrowKind::hole), 6, 1e-12);
  EXPECT_EQ(least({sheet, {Loop::circle({50, 50}, 3)}}, NarrowKind::hole, 5.9), -1);
}

TEST(Narrow, ASlotIsItsWidthWhicheverWayItLiesAndHoweverItEnds) {
  EXPECT_NEAR(least({sheet, {Loop::rectangle({50, 50}, {90, 53})}}, NarrowKind::slot), 3, 1e-12);
  const Loop round{{{{50, 50}, 0}, {{80, 50}, 1}, {{80, 58}, 0}, {{50, 58}, 1}}};
  EXPECT_NEAR(least({sheet, {round}}, NarrowKind::slot), 8, 1e-9);
  const double c = std::cos(0.4);
  const double s = std::sin(0.4);
  Loop turned;
  for (const Vec2 p : {Vec2{0, 0}, {40, 0}, {40, 2.5}, {0, 2.5}}) {
    turned.vertices.push_back({{100 + c * p.x - s * p.y, 60 + s * p.x + c * p.y}, 0});
  }
  EXPECT_NEAR(least({sheet, {turned}}, NarrowKind::slot), 2.5, 1e-9);
}

TEST(Narrow, AWebIsTheLeastDistanceBetweenCutOutsAndToTheEdge) {
  EXPECT_NEAR(least({sheet, {Loop::circle({100, 100}, 10), Loop::circle({116, 112}, 8)}}, NarrowKind::web), 2, 1e-9);
  EXPECT_NEAR(least({sheet, {Loop::circle({14, 100}, 10)}}, NarrowKind::web), 4, 1e-9);
  EXPECT_NEAR(
      least({sheet, {Loop::rectangle({50, 50}, {90, 60}), Loop::rectangle({92.5, 55}, {120, 80})}}, NarrowKind::web),
      2.5, 1e-9);
  const Profile ring{Loop::circle({0, 0}, 20), {Loop::circle({0, 0}, 17.5)}};
  EXPECT_NEAR(least(ring, NarrowKind::web), 2.5, 1e-9);
}

TEST(Narrow, ANotchAndANeckOfTheOutlineAreSlotAndWeb) {
  const Loop notch = Loop::polygon({{0, 0}, {50, 0}, {50, 30}, {53, 30}, {53, 0}, {100, 0}, {100, 80}, {0, 80}});
  EXPECT_NEAR(least({notch, {}}, NarrowKind::slot), 3, 1e-12);
  EXPECT_EQ(least({notch, {}}, NarrowKind::web), -1);
  const Loop neck =
      Loop::polygon({{0, 0}, {100, 0}, {100, 80}, {52, 80}, {52, 40}, {48, 40}, {48, 4}, {44, 4}, {44, 80}, {0, 80}});
  EXPECT_NEAR(least({neck, {}}, NarrowKind::web), 4, 1e-12);
}

TEST(Narrow, FilletsAndChamfersAreNeither) {
  EXPECT_TRUE(narrow_places({Loop::rounded_rectangle({0, 0}, {300, 200}, 2), {}}, 20).places.empty());
  const Loop chamfered = Loop::polygon({{1, 0}, {300, 0}, {300, 200}, {0, 200}, {0, 1}});
  EXPECT_TRUE(narrow_places({chamfered, {}}, 20).places.empty());
}

TEST(Narrow, AReliefInACornerIsAMatterOfItsRadius) {
  // A window of 40 x 20 with half circles of radius 1 set into its ends beside both long sides.
  const Loop relieved{{{{50, 50}, 0},
                       {{90, 50}, 1},
                       {{90, 52}, 0},
                       {{90, 68}, 1},
                       {{90, 70}, 0},
                       {{50, 70}, 1},
                       {{50, 68}, 0},
                       {{50, 52}, 1}}};
  EXPECT_TRUE(narrow_places({sheet, {relieved}}, 15).places.empty());
  EXPECT_NEAR(inner_corners({sheet, {relieved}}).front().radius_mm, 1, 1e-9);
  // A tongue 6 wide with a round nose is as narrow as its sides are near each other.
  const Loop tongue{{{{0, 0}, 0},
                     {{100, 0}, 0},
                     {{100, 40}, 0},
                     {{60, 40}, 0},
                     {{60, 80}, 1},
                     {{54, 80}, 0},
                     {{54, 40}, 0},
                     {{0, 40}, 0}}};
  EXPECT_NEAR(least({tongue, {}}, NarrowKind::web), 6, 1e-9);
}

/// A plate 40 high with notches 20 deep in its upper edge, so wide, with so much between them.
Loop comb(const std::vector<double>& notches, double between) {
  std::vector<Vec2> points{{0, 40}, {0, 0}};
  double x = between;
  std::vector<Vec2> upper;
  for (const double width : notches) {
    for (const Vec2 p : {Vec2{x, 40}, {x, 20}, {x + width, 20}, {x + width, 40}}) upper.push_back(p);
    x += width + between;
  }
  points.push_back({x, 0});
  points.push_back({x, 40});
  points.insert(points.end(), upper.rbegin(), upper.rend());
  return Loop::polygon(points);
}

TEST(Narrow, EachNotchOfAnOutlineAndEachToothBetweenThemIsAPlaceOfItsOwn) {
  const auto places = narrow_places({comb({5, 3, 4}, 6), {}}, 7).places;
  std::vector<double> slots, webs;
  for (const NarrowPlace& p : places) (p.kind == NarrowKind::slot ? slots : webs).push_back(p.width_mm);
  ASSERT_EQ(slots.size(), 3U);
  for (std::size_t i = 0; i < 3; ++i) EXPECT_NEAR(slots[i], 3.0 + static_cast<double>(i), 1e-9);
  ASSERT_EQ(webs.size(), 4U);
  for (const double web : webs) EXPECT_NEAR(web, 6, 1e-9);
  EXPECT_NEAR(places.front().at.x, 6 + 5 + 6 + 1.5, 1e-9);
  EXPECT_GE(places.front().at.y, 30 - 1e-9);  // between its ground and its mouth
}

TEST(Narrow, ACurvedSlotOfShortLinesIsOnePlace) {
  Loop slot;
  constexpr int steps = 60;
  for (int i = 0; i <= steps; ++i) slot.vertices.push_back({{150 + 60 * std::cos(i * 0.03), 60 + 60 * std::sin(i * 0.03)}, 0});
  for (int i = steps; i >= 0; --i) slot.vertices.push_back({{150 + 63 * std::cos(i * 0.03), 60 + 63 * std::sin(i * 0.03)}, 0});
  const auto places = narrow_places({sheet, {slot}}, 6).places;
  ASSERT_EQ(places.size(), 1U);
  EXPECT_EQ(places[0].kind, NarrowKind::slot);
  EXPECT_NEAR(places[0].width_mm, 3, 0.002);  // the lines' middles lie 60 (1 - cos 0.015) inside of their ends
}

TEST(Narrow, ASquareCutOutIsOnePlace) {
  EXPECT_EQ(narrow_places({sheet, {Loop::rectangle({50, 50}, {55, 55})}}, 20).places.size(), 1U);
}

TEST(Narrow, OfVeryManyTheNarrowestAreTold) {
  std::vector<double> notches(30'000, 3.0);
  notches[29'990] = 2.5;  // beyond what is told apart
  const auto search = narrow_places({comb(notches, 9), {}}, 7);
  EXPECT_TRUE(search.complete && search.more);
  ASSERT_EQ(search.places.size(), most_narrow_of_a_pair);
  EXPECT_NEAR(search.places.front().width_mm, 2.5, 1e-9);
}

TEST(Narrow, TurningTheLoopsRoundChangesNothing) {
  const Profile p{sheet, {Loop::circle({14, 100}, 10), Loop::rectangle({50, 50}, {90, 53})}};
  const Profile q{p.outer.reversed(), {p.holes[0].reversed(), p.holes[1].reversed()}};
  const auto a = narrow_places(p, 20).places;
  const auto b = narrow_places(q, 20).places;
  ASSERT_EQ(a.size(), b.size());
  for (std::size_t i = 0; i < a.size(); ++i) {
    EXPECT_EQ(a[i].kind, b[i].kind);
    EXPECT_NEAR(a[i].width_mm, b[i].width_mm, 1e-9);
  }
}

TEST(InnerCorners, AreSharpOrRoundAndRoundHolesHaveNone) {
  EXPECT_TRUE(inner_corners({sheet, {Loop::circle({50, 50}, 3)}}).empty());
  EXPECT_EQ(inner_corners({sheet, {Loop::rectangle({50, 50}, {90, 60})}}).size(), 4U);
  const auto round = inner_corners({sheet, {Loop::rounded_rectangle({50, 50}, {90, 80}, 2.5)}});
  ASSERT_EQ(round.size(), 4U);
  EXPECT_NEAR(round.front().radius_mm, 2.5, 1e-9);
}

TEST(BoxPairs, AreThoseOfComparingEveryTwo) {
  std::vector<Box2> boxes;
  unsigned seed = 7;
  const auto next = [&seed] { return (seed = seed * 1664525U + 1013904223U) / 4294967296.0; };
  for (int i = 0; i < 300; ++i) {
    const Vec2 low{200 * next() - 100, 200 * next() - 100};
    const double longest = i % 20 == 0 ? 150 : 6;
    boxes.push_back({low, low + Vec2{longest * next(), 3 * next()}});
  }
  for (const double band : {0.0, 1.5}) {
    std::size_t expected = 0;
    for (std::size_t i = 0; i < boxes.size(); ++i) {
      for (std::size_t k = i + 1; k < boxes.size(); ++k) {
        const Box2& a = boxes[i];
        const Box2& b = boxes[k];
        expected += a.low.x <= b.high.x + band && b.low.x <= a.high.x + band && a.low.y <= b.high.y + band &&
                            b.low.y <= a.high.y + band
                        ? 1
                        : 0;
      }
    }
    std::vector<std::pair<std::size_t, std::size_t>> seen;
    EXPECT_TRUE(each_near_pair(boxes, band, 1'000'000, [&](std::size_t i, std::size_t k) { seen.emplace_back(i, k); }));
    EXPECT_EQ(seen.size(), expected);
    std::sort(seen.begin(), seen.end());
    EXPECT_EQ(std::adjacent_find(seen.begin(), seen.end()), seen.end());
  }
  EXPECT_FALSE(each_near_pair(boxes, 0, 10, [](std::size_t, std::size_t) {}));
}

}  // namespace
}  // namespace fitup::geometry

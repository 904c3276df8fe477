// Loops and profiles against closed forms, and what makes a profile impossible to cut.
#include "fitup/geometry.h"

#include <cmath>

#include <gtest/gtest.h>

#include "geometry/intersect.h"

namespace fitup {
namespace {

TEST(Loop, CircleHasItsAreaPerimeterAndBounds) {
  const Loop c = Loop::circle({3, 4}, 2.5);
  ASSERT_TRUE(c.as_circle());
  EXPECT_NEAR(c.as_circle()->radius, 2.5, 1e-12);
  EXPECT_NEAR(c.area_mm2(), M_PI * 6.25, 1e-9);
  EXPECT_NEAR(c.perimeter_mm(), M_PI * 5, 1e-9);
  EXPECT_NEAR(c.bounds().low.y, 1.5, 1e-12);
  EXPECT_NEAR(c.bounds().high.x, 5.5, 1e-12);
}

TEST(Loop, RoundedRectangleLosesFourMinusPiRSquared) {
  const Loop r = Loop::rounded_rectangle({0, 0}, {40, 20}, 5);
  EXPECT_NEAR(r.area_mm2(), 800 - (4 - M_PI) * 25, 1e-9);
  EXPECT_NEAR(r.perimeter_mm(), 2 * 60 - (8 - 2 * M_PI) * 5, 1e-9);
}

TEST(Loop, RacetrackHasNoEdgeWithoutLength) {
  const Loop r = Loop::rounded_rectangle({0, 0}, {40, 20}, 10);
  for (const Edge& e : r.edges()) EXPECT_GT(e.length_mm(), 1);
  EXPECT_NEAR(r.area_mm2(), 20 * 20 + M_PI * 100, 1e-9);
}

TEST(Loop, HexagonIsAsWideAcrossFlatsAsAsked) {
  const Loop h = Loop::hexagon({0, 0}, 10);
  EXPECT_NEAR(h.bounds().size().y, 10, 1e-12);
  EXPECT_NEAR(h.area_mm2(), std::sqrt(3.0) / 2 * 100, 1e-9);
}

TEST(Edge, BulgeIsTheTangentOfAQuarterOfTheSweep) {
  // DXF reference, group code 42: bulge = tan(included angle / 4).
  for (const double sweep : {0.3, 1.2, -0.7, 3.0, -4.5}) {
    const Vec2 from{10 * std::cos(0.4), 10 * std::sin(0.4)};
    const Vec2 to{10 * std::cos(0.4 + sweep), 10 * std::sin(0.4 + sweep)};
    const Arc arc = Edge{from, to, std::tan(sweep / 4)}.arc();
    EXPECT_NEAR(arc.radius, 10, 1e-9);
    EXPECT_NEAR(norm(arc.centre), 0, 1e-9);
    EXPECT_NEAR(arc.sweep, sweep, 1e-12);
  }
}

TEST(Arc, PassesWhereItTurnsEitherWay) {
  // From due east a quarter to the north, and the rest of the circle, the other way round to the north.
  const Arc quarter = Edge{{5, 0}, {0, 5}, std::tan(M_PI / 8)}.arc();
  const Arc rest = Edge{{5, 0}, {0, 5}, -std::tan(3 * M_PI / 8)}.arc();
  EXPECT_NEAR(quarter.turn_to({0, 1}), M_PI / 2, 1e-12);
  EXPECT_NEAR(rest.turn_to({0, 1}), 3 * M_PI / 2, 1e-12);
  EXPECT_NEAR(quarter.turn_to({1, -1}), 7 * M_PI / 4, 1e-12);
  EXPECT_NEAR(rest.turn_to({1, -1}), M_PI / 4, 1e-12);
  for (const Vec2 d : {Vec2{1, 1}, Vec2{3, 1}}) {
    EXPECT_TRUE(quarter.passes(d));
    EXPECT_FALSE(rest.passes(d));
  }
  for (const Vec2 d : {Vec2{-1, 1}, Vec2{-1, -2}, Vec2{1, -1}}) {
    EXPECT_FALSE(quarter.passes(d));
    EXPECT_TRUE(rest.passes(d));
  }
  EXPECT_FALSE(quarter.passes({1, -1e-3}));
  EXPECT_TRUE(quarter.passes({1, -1e-3}, 2e-3)) << "just before the start, within the slack";
  EXPECT_TRUE(quarter.passes({-1e-3, 1}, 2e-3)) << "just after the end";
}

TEST(Loop, ReversedIsTheSameOutlineTheOtherWay) {
  // A plate with a bite of radius 3 in one side and a round end.
  const Loop plate{{{{0, 0}}, {{10, 0}, -1}, {{16, 0}}, {{30, 0}, 1}, {{30, 20}}, {{0, 20}}}};
  const Loop back = plate.reversed();
  EXPECT_NEAR(plate.area_mm2(), 600 - M_PI * 9 / 2 + M_PI * 50, 1e-9);
  EXPECT_NEAR(back.area_mm2(), -plate.area_mm2(), 1e-9);
  EXPECT_NEAR(back.perimeter_mm(), plate.perimeter_mm(), 1e-9);
  EXPECT_EQ(back.reversed(), plate);
  for (const Edge& e : plate.edges()) {
    const auto edges = back.edges();
    EXPECT_TRUE(std::any_of(edges.begin(), edges.end(), [&e](const Edge& other) {
      return other.from == e.to && other.to == e.from && other.bulge == -e.bulge;
    }));
  }
}

TEST(Profile, CentroidOfAHalfDiscIsFourRByThreePi) {
  const Profile half{{{{{-6, 0}, 0}, {{6, 0}, 1}}}, {}};
  EXPECT_NEAR(half.area_mm2(), M_PI * 18, 1e-9);
  EXPECT_NEAR(half.centroid().y, 4 * 6 / (3 * M_PI), 1e-9);
  EXPECT_NEAR(half.centroid().x, 0, 1e-9);
}

TEST(Profile, CentroidMovesAwayFromAHole) {
  const Profile p{Loop::rectangle({0, 0}, {10, 10}), {Loop::circle({7, 5}, 1)}};
  const double a = M_PI;
  EXPECT_NEAR(p.centroid().x, (100 * 5 - a * 7) / (100 - a), 1e-9);
}

TEST(SideOf, ArcsCountAsTheyBend) {
  const Loop racetrack = Loop::rounded_rectangle({0, 0}, {40, 20}, 10);
  EXPECT_EQ(geometry::side_of(racetrack, {0.1, 10}), geometry::Side::inside);
  EXPECT_EQ(geometry::side_of(racetrack, {0.1, 0.1}), geometry::Side::outside);
  EXPECT_EQ(geometry::side_of(racetrack, {0, 10}), geometry::Side::on);
  EXPECT_EQ(geometry::side_of(Loop::circle({0, 0}, 5), {0, 0}), geometry::Side::inside);
  EXPECT_EQ(geometry::side_of(Loop::circle({0, 0}, 5), {-2, 0}), geometry::Side::inside);
}

TEST(FlawIn, SoundPlateHasNone) {
  EXPECT_FALSE(flaw_in({Loop::rounded_rectangle({0, 0}, {100, 50}, 4), {Loop::circle({20, 20}, 5)}}));
}

struct FlawCase {
  const char* name;
  Profile profile;
  const char* says;
};
class Flaws : public testing::TestWithParam<FlawCase> {};
TEST_P(Flaws, AreNamed) {
  const auto flaw = flaw_in(GetParam().profile);
  ASSERT_TRUE(flaw);
  EXPECT_NE(flaw->find(GetParam().says), std::string::npos) << *flaw;
}
INSTANTIATE_TEST_SUITE_P(
    All, Flaws,
    testing::Values(
        FlawCase{"hole_crosses_edge", {Loop::rectangle({0, 0}, {100, 50}), {Loop::circle({2, 20}, 5)}}, "meet"},
        FlawCase{"hole_touches_edge", {Loop::rectangle({0, 0}, {100, 50}), {Loop::circle({5, 20}, 5)}}, "meet"},
        FlawCase{"hole_nearly_touches_edge",
                 {Loop::rectangle({0, 0}, {100, 50}), {Loop::circle({5 + 5e-5, 20}, 5)}},
                 "meet at (0.000, 20.000) mm"},
        FlawCase{"holes_nearly_touch",
                 {Loop::rectangle({0, 0}, {100, 50}), {Loop::circle({20, 20}, 5), Loop::circle({30.00005, 20}, 5)}},
                 "meet at (25.000, 20.000) mm"},
        FlawCase{"hole_outside", {Loop::rectangle({0, 0}, {100, 50}), {Loop::circle({200, 20}, 5)}}, "outside"},
        FlawCase{"hole_in_hole",
                 {Loop::rectangle({0, 0}, {100, 50}), {Loop::circle({30, 25}, 9), Loop::circle({30, 25}, 4)}},
                 "in another"},
        FlawCase{"clockwise", {Loop::polygon({{0, 0}, {0, 10}, {10, 10}}), {}}, "counter-clockwise"},
        FlawCase{"crossing", {Loop::polygon({{0, 0}, {10, 0}, {2, 8}, {8, 8}, {0, 2}, {-20, 9}}), {}}, "itself"},
        FlawCase{"no_length", {Loop::polygon({{0, 0}, {10, 0}, {10, 0}, {0, 10}}), {}}, "no length"}),
    [](const auto& c) { return std::string(c.param.name); });

TEST(Pose, ComposesAndInverts) {
  const Pose a = Pose::at({1, 2, 3}, axis::y, axis::z);
  const Pose b = Pose::at({-4, 0, 2}, axis::minus_x, axis::y);
  const Vec3 p{3, -1, 7};
  const Vec3 q = (a * b).point(p);
  const Vec3 r = a.point(b.point(p));
  EXPECT_NEAR(norm(q - r), 0, 1e-12);
  EXPECT_NEAR(norm(a.inverse().point(a.point(p)) - p), 0, 1e-12);
  EXPECT_NEAR(norm(a.local(a.point(p)) - p), 0, 1e-12);
}

TEST(Prism, BoundsAreExactForATurnedDisc) {
  const Prism p{{Loop::circle({0, 0}, 5), {}}, Pose::at({10, 0, 0}, axis::y, axis::z), 3};
  EXPECT_NEAR(p.bounds().low.x, 10, 1e-12);
  EXPECT_NEAR(p.bounds().high.x, 13, 1e-12);
  EXPECT_NEAR(p.bounds().low.z, -5, 1e-12);
  EXPECT_NEAR(p.bounds().high.y, 5, 1e-12);
}

}  // namespace
}  // namespace fitup

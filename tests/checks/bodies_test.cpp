// Bodies of several prisms: what lies between an inner and an outer stack, bores, threads, askew prisms.
#include <cmath>

#include <gtest/gtest.h>

#include "checks/meeting_place.h"
#include "checks/rules.h"
#include "checks/shapes.h"

namespace fitup {
namespace {

using checks::Decision;
using checks::PairOptions;
using generated::along_x;
using generated::along_y;
using generated::along_z;
using generated::body;
using generated::box;
using generated::disc;

Decision decide(const Body& a, const Body& b, const PairOptions& options = {}) {
  const Decision there = checks::decide(checks::place(a, Pose{}), checks::place(b, Pose{}), options);
  EXPECT_EQ(there, checks::decide(checks::place(b, Pose{}), checks::place(a, Pose{}), options)) << "symmetric";
  return there;
}

// A bar of 20 x 10 x 100 whose end at z = 100 has a corner of 4 taken off somehow: outer is the full bar.
Body chamfered_bar() {
  Body b;
  b.outer = {along_z(box({0, 0}, {20, 10}), 0, 100)};
  b.inner = {along_z(box({0, 0}, {20, 10}), 0, 96), along_z(box({0, 0}, {16, 10}), 96, 4)};
  b.exact = false;
  return b;
}

TEST(Bodies, BetweenInnerAndOuterStacksTheAnswerIsUnsure) {
  const auto peg = [](double x, double z) { return body({along_z(box({x, 2}, {x + 3, 8}), z, 2)}); };
  EXPECT_EQ(decide(chamfered_bar(), peg(17, 97)), Decision::unsure) << "inside the corner";
  EXPECT_EQ(decide(chamfered_bar(), peg(10, 97)), Decision::overlap);
  EXPECT_EQ(decide(chamfered_bar(), peg(20, 97)), Decision::unsure) << "touches only what may be gone";
  EXPECT_EQ(decide(chamfered_bar(), peg(20, 90)), Decision::touch);
  EXPECT_EQ(decide(chamfered_bar(), peg(20.001, 97)), Decision::clear);
}

TEST(Bodies, ATouchOfBothStacksIsATouch) {
  // A plate on the end face, as wide as the bar: it touches what is left of the end.
  EXPECT_EQ(decide(chamfered_bar(), body({along_z(box({-5, -5}, {25, 15}), 100, 3)})), Decision::touch);
}

TEST(Bodies, ScrewWithHeadInAHole) {
  Profile plate = box({-20, -20}, {20, 20});
  plate.holes = {Loop::circle({0, 0}, 2.25)};
  const auto screw = [](double seat) {
    return body({along_z(disc({0, 0}, 2), seat, 12), along_z(disc({0, 0}, 3.8), seat - 2.2, 2.2)});
  };
  EXPECT_EQ(decide(body({along_z(plate, 0, 3)}), screw(0)), Decision::touch);
  EXPECT_EQ(decide(body({along_z(plate, 0, 3)}), screw(-0.5)), Decision::clear);
  EXPECT_EQ(decide(body({along_z(plate, 0, 3)}), screw(0.5)), Decision::overlap);
}

TEST(Bodies, AThreadSharesItsAnnulus) {
  Profile nut{Loop::hexagon({0, 0}, 10), {Loop::circle({0, 0}, 2.5)}};
  const Body tapped = body({along_z(nut, 5, 5)});
  const Body rod = body({along_z(disc({0, 0}, 3), 0, 40)});
  EXPECT_EQ(decide(tapped, rod), Decision::overlap);
  EXPECT_EQ(decide(tapped, rod, {6, {}}), Decision::touch);
  const Body beside = body({along_z(disc({0.1, 0}, 3), 0, 40)});
  EXPECT_EQ(decide(tapped, beside, {6, {}}), Decision::overlap) << "not coaxial: not its thread";
  const Body thick = body({along_z(disc({0, 0}, 3.2), 0, 40)});
  EXPECT_EQ(decide(tapped, thick, {6, {}}), Decision::overlap) << "larger than the thread";
}

TEST(Bodies, AThreadInABoreSharesItsAnnulus) {
  const Body leg = body({along_z(box({0, 0}, {4, 40}), 0, 200)}, {{3.3, Pose::at({0, 20, 60}, axis::y, axis::z), 4}});
  const Body screw = body({along_x(disc({20, 60}, 2), -6, 14)});
  EXPECT_EQ(decide(leg, screw, {4, {}}), Decision::touch);
  EXPECT_NE(decide(leg, screw), Decision::clear);
  EXPECT_NE(decide(leg, screw), Decision::touch);
}

TEST(Bodies, ARodThroughABoreIsFreeOfBothItsMouths) {
  const Body leg = body({along_z(box({0, 0}, {4, 40}), 0, 200)}, {{9, Pose::at({0, 20, 60}, axis::y, axis::z), 4}});
  EXPECT_EQ(decide(leg, body({along_x(disc({20, 60}, 4), -30, 80)})), Decision::clear);
  EXPECT_EQ(decide(leg, body({along_x(disc({20, 60}, 4), 1, 2)})), Decision::clear) << "ends inside";
  EXPECT_EQ(decide(leg, body({along_x(disc({20, 60}, 4), 4, 20)})), Decision::clear) << "ends flush with the face";
  EXPECT_EQ(decide(leg, body({along_x(disc({20, 90}, 4), -30, 80)})), Decision::overlap) << "beside the bore";
  EXPECT_EQ(decide(leg, body({along_x(box({10, 50}, {30, 70}), -30, 80)})), Decision::overlap)
      << "larger than the bore";
}

TEST(Bodies, AnAskewPrismIsClearByItsBoxOrUnsure) {
  const double c = std::sqrt(0.5);
  const Body askew = body({{box({-5, -5}, {5, 5}), Pose::at({0, 0, 0}, {c, c, 0}, axis::z), 50}});
  EXPECT_EQ(decide(askew, body({along_z(box({100, 100}, {110, 110}), 0, 10)})), Decision::clear);
  EXPECT_EQ(decide(askew, body({along_z(box({-1, -1}, {1, 1}), 0, 10)})), Decision::unsure);
}

TEST(Bodies, APrismTurnedAboutItsOwnAxisIsStillExact) {
  const double c = std::sqrt(0.5);
  const Body turned = body({{box({-5, -5}, {5, 5}), Pose::at({0, 0, 0}, {c, c, 0}, {-c, c, 0}), 50}});
  const double corner = 5 * std::sqrt(2.0);
  EXPECT_EQ(decide(turned, body({along_z(box({corner, -3}, {20, 3}), 0, 10)})), Decision::touch);
  EXPECT_EQ(decide(turned, body({along_z(box({corner + 0.001, -3}, {20, 3}), 0, 10)})), Decision::clear);
  EXPECT_EQ(decide(turned, body({along_z(box({corner - 0.001, -3}, {20, 3}), 0, 10)})), Decision::overlap);
}

TEST(Bodies, CommonBoxIsWhereTheyMeet) {
  const Box3 b = checks::common_box(checks::place(body({along_z(box({0, 0}, {20, 10}), 0, 100)}), Pose{}),
                                    checks::place(body({along_z(box({18, 2}, {40, 4}), 90, 100)}), Pose{}));
  EXPECT_EQ(b.low, (Vec3{18, 2, 90}));
  EXPECT_EQ(b.high, (Vec3{20, 4, 100}));
}

Box3 meeting_box(const Body& a, const Body& b) {
  return checks::meeting_box(checks::place(a, Pose{}), checks::place(b, Pose{}));
}

void expect_near(Vec3 is, Vec3 wanted) {
  EXPECT_NEAR(is.x, wanted.x, 1e-3);
  EXPECT_NEAR(is.y, wanted.y, 1e-3);
  EXPECT_NEAR(is.z, wanted.z, 1e-3);
}

// A round of radius 5 along Z whose middle is 3 mm from a wall's face is 4 mm to either side of it behind the face.
TEST(Bodies, MeetingBoxIsOfWhatARoundHasInAWallAndNotOfItsBox) {
  const Box3 parallel =
      meeting_box(body({along_z(disc({0, 0}, 5), 0, 30)}), body({along_z(box({3, -20}, {9, 20}), 10, 50)}));
  expect_near(parallel.low, {3, -4, 10});
  expect_near(parallel.high, {5, 4, 30});
  const Box3 crossing =
      meeting_box(body({along_z(disc({0, 0}, 5), 0, 30)}), body({along_x(box({-20, 10}, {20, 40}), 3, 6)}));
  expect_near(crossing.low, {3, -4, 10});
  expect_near(crossing.high, {5, 4, 30});
}

// Two rounds of radius 5 across each other, their middles 8 mm apart along Z: 2 mm high where they cross, and where one
// is lowest the other is wide as sqrt(25 - 9) to either side.
TEST(Bodies, MeetingBoxOfTwoCrossingRounds) {
  const Box3 both = meeting_box(body({along_x(disc({0, 0}, 5), -30, 60)}), body({along_y(disc({8, 0}, 5), -30, 60)}));
  expect_near(both.middle(), {0, 0, 4});
  expect_near(both.size(), {8, 8, 2});
}

TEST(Bodies, MeetingBoxIsTheLargerOfTwoPlaces) {
  const Body bar = body({along_z(box({0, 0}, {100, 10}), 0, 10)});
  const Body fork = body({along_z(box({0, 9}, {10, 30}), 0, 10), along_z(box({60, 8}, {90, 30}), 0, 10),
                          along_z(box({0, 20}, {100, 30}), 0, 10)});
  expect_near(meeting_box(bar, fork).low, {60, 8, 0});
  expect_near(meeting_box(bar, fork).high, {90, 10, 10});
}

TEST(Bodies, MeetingBoxOfPiecesOfOneContactIsOfAllOfThem) {
  const Body plate = body({along_z(box({0, 0}, {100, 10}), 0, 10)});
  const Body strip = body({along_z(box({10, 10}, {30, 20}), 0, 10), along_z(box({30, 10}, {70, 20}), 0, 10)});
  expect_near(meeting_box(plate, strip).low, {10, 10, 0});
  expect_near(meeting_box(plate, strip).high, {70, 10, 10});
}

// What is solid for sure is 4 mm shorter.
TEST(Bodies, MeetingBoxIsOfWhatIsSolidForSure) {
  const Box3 met = meeting_box(chamfered_bar(), body({along_z(box({12, 2}, {18, 8}), 98, 20)}));
  expect_near(met.low, {12, 2, 98});
  expect_near(met.high, {16, 8, 100});
}

TEST(Bodies, PlaceBetweenIsInTheMiddleOfTheGap) {
  const Vec3 place =
      checks::place_between(checks::place(body({along_z(box({0, 0}, {20, 10}), 0, 100)}), Pose{}),
                            checks::place(body({along_z(disc({30, 4}, 6), 90, 100)}), Pose{}), {1, 0, 0}, 4);
  expect_near(place, {22, 4, 95});
}

}  // namespace
}  // namespace fitup

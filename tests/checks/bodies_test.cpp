// Bodies of several prisms: what lies between an inner and an outer stack, bores, threads, askew prisms.
#include <cmath>

#include <gtest/gtest.h>

#include "checks/rules.h"
#include "checks/shapes.h"

namespace fitup {
namespace {

using checks::Decision;
using checks::PairOptions;
using generated::along_x;
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

}  // namespace
}  // namespace fitup

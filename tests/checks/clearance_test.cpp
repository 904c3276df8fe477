// Distances between bodies: against closed forms, and against the kernel's on generated pairs; which pairs count.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

#include "checks/distance.h"
#include "checks/generated_pairs.h"
#include "checks/kernel_judge.h"
#include "checks/shapes.h"
#include "fitup/findings.h"

namespace fitup {
namespace {

using checks::nearest;
using checks::PlacedBody;
using generated::Random;

constexpr double anything = 1e300;

double distance(const Body& a, const Body& b, Vec3 b_at = {}) {
  const auto found = nearest(checks::place(a, {}), checks::place(b, Pose::at(b_at)), anything);
  return found ? found->mm : NAN;
}

Body cube(double size) { return generated::body({generated::along_z(generated::box({0, 0}, {size, size}), 0, size)}); }
Body rod(double diameter, double length) {
  return generated::body({generated::along_y(generated::disc({0, 0}, diameter / 2), 0, length)});
}

TEST(Distance, OfBoxesIsThatOfTheirCornersEdgesAndFaces) {
  EXPECT_DOUBLE_EQ(distance(cube(10), cube(10), {10 + 3, 10 + 4, 10 + 12}), 13) << "3, 4, 12: corner to corner";
  EXPECT_DOUBLE_EQ(distance(cube(10), cube(10), {10 + 3, 10 + 4, 5}), 5) << "edge to edge";
  EXPECT_DOUBLE_EQ(distance(cube(10), cube(10), {10 + 3, 5, 5}), 3);
  EXPECT_DOUBLE_EQ(distance(cube(10), cube(10), {10, 5, 5}), 0) << "they touch";
  EXPECT_DOUBLE_EQ(distance(cube(10), cube(10), {5, 5, 5}), 0) << "they overlap";
}

TEST(Distance, OfRoundsIsThatOfTheirAxesLessTheirRadii) {
  EXPECT_NEAR(distance(rod(6, 100), rod(8, 100), {30, 0, 40}), 50 - 3 - 4, 1e-9);
  EXPECT_NEAR(distance(rod(6, 100), rod(8, 100), {30, 100 + 12, 40}), std::hypot(43, 12), 1e-9) << "end behind end";
  EXPECT_NEAR(distance(rod(6, 100), cube(10), {13, 200, -5}), std::hypot(10, 100), 1e-9);
}

// A rod in its hole stands off by half of what the hole is larger, whatever else the plate is.
TEST(Distance, OfARodInAHoleIsTheRadialClearance) {
  Profile plate = generated::box({-50, -50}, {50, 50});
  plate.holes.push_back(Loop::circle({0, 0}, 3.5));
  const Body holed = generated::body({generated::along_y(plate, 40, 3)});
  EXPECT_NEAR(distance(rod(6, 100), holed), 0.5, 1e-9);
  EXPECT_NEAR(distance(rod(6, 100), holed, {0.2, 0, 0}), 0.3, 1e-9);
}

TEST(Distance, OfTwoThatCrossAndAreNoBoxesIsLeftToTheKernel) {
  const Body across = generated::body({generated::along_x(generated::disc({0, 0}, 3), 0, 100)});
  EXPECT_FALSE(nearest(checks::place(rod(6, 100), {}), checks::place(across, Pose::at({0, 0, 20})), anything));
  EXPECT_TRUE(nearest(checks::place(rod(6, 100), {}), checks::place(across, Pose::at({0, 0, 20})), 10))
      << "their boxes are farther apart than what is asked for";
}

TEST(Distance, AgreesWithTheKernelOnGeneratedPairs) {
  Random random(20261125);
  std::size_t decided = 0;
  std::size_t all = 0;
  for (const auto& kinds : {generated::span_kinds(), generated::disc_kinds(), generated::rectangle_kinds(),
                            generated::region_kinds(), generated::crossing_kinds(), generated::bore_kinds()}) {
    for (const generated::Pair& pair : generated::draw(kinds, 7, 1)) {
      if (pair.apart_mm != 0) continue;
      const Vec3 off{generated::between(random, -30, 30), generated::between(random, -30, 30),
                     generated::between(random, -30, 30)};
      const Pose b_at = pair.at.moved(off);
      const auto found = nearest(checks::place(pair.a, pair.at), checks::place(pair.b, b_at), anything);
      ++all;
      if (!found) continue;
      ++decided;
      const judge::Measured kernel = judge::measure(pair.a, pair.at, pair.b, b_at);
      const double expected = kernel.volume_mm3 > 0 ? 0 : kernel.distance_mm;
      EXPECT_NEAR(found->mm, expected, 1e-6) << pair.what;
    }
  }
  EXPECT_GT(2 * decided, all) << decided << " of " << all;
}

/// On how many of the pairs that the kernel judges above these rules say something else.
int spoiled(const checks::DistanceRules& rules) {
  Random random(20261125);
  int differ = 0;
  for (const auto& kinds : {generated::span_kinds(), generated::disc_kinds(), generated::rectangle_kinds(),
                            generated::region_kinds(), generated::crossing_kinds(), generated::bore_kinds()}) {
    for (const generated::Pair& pair : generated::draw(kinds, 7, 3)) {
      // Some as they were drawn, within each other too; some moved apart.
      const double most = random() % 2 == 0 ? 30 : 0.01;
      const Vec3 off{generated::between(random, -most, most), generated::between(random, -most, most),
                     generated::between(random, -most, most)};
      const PlacedBody a = checks::place(pair.a, pair.at);
      const PlacedBody b = checks::place(pair.b, pair.at.moved(off));
      const auto right = nearest(a, b, anything);
      const auto wrong = nearest(a, b, anything, rules);
      differ += right.has_value() != wrong.has_value() || (right && std::abs(right->mm - wrong->mm) > 1e-6) ? 1 : 0;
    }
  }
  return differ;
}

TEST(Distance, ComesOutDifferentlyWithARuleThatIsWrong) {
  using checks::DistanceRules;
  using geometry::Interval;
  using geometry::Region;
  EXPECT_EQ(spoiled(DistanceRules{}), 0);
  const auto with = [](auto&& spoil) {
    DistanceRules rules;
    spoil(rules);
    return spoiled(rules);
  };
  EXPECT_GT(with([](DistanceRules& r) {
              r.regions = [](const Region& a, const Region& b) {
                return geometry::distance_between(Region({a.profile().outer, {}}), Region({b.profile().outer, {}}));
              };
            }),
            0)
      << "regions without their holes";
  EXPECT_GT(with([](DistanceRules& r) {
              r.regions = [](const Region& a, const Region& b) {
                return geometry::NearestPlace{geometry::distance_mm(a.bounds(), b.bounds()), a.bounds().middle()};
              };
            }),
            0)
      << "regions by their boxes";
  EXPECT_GT(with([](DistanceRules& r) { r.spans = [](Interval, Interval) { return 0.0; }; }), 0);
  EXPECT_GT(
      with([](DistanceRules& r) { r.spans = [](Interval a, Interval b) { return std::max(0.0, b.low - a.high); }; }), 0)
      << "spans that lie on one side alone";
  EXPECT_GT(with([](DistanceRules& r) { r.together = [](double a, double b) { return std::max(a, b); }; }), 0);
  EXPECT_GT(with([](DistanceRules& r) { r.together = [](double a, double b) { return a + b; }; }), 0);
  EXPECT_GT(with([](DistanceRules& r) {
              r.boxes = [](const Box3& a, const Box3& b) {
                return std::max({0.0, a.low.x - b.high.x, b.low.x - a.high.x});
              };
            }),
            0)
      << "boxes along X alone";
  EXPECT_GT(with([](DistanceRules& r) {
              r.boxes = [](const Box3& a, const Box3& b) { return 2 * checks::distance_mm(a, b); };
            }),
            0)
      << "a bound that is none";
  EXPECT_GT(
      with([](DistanceRules& r) { r.bored = [](const checks::PlacedPrism&, const checks::Stack&) { return false; }; }),
      0)
      << "bores that are not looked at";
}

// Two cubes of 10 mm with 2 mm between them, and one far off.
Plan three_cubes() {
  Plan plan;
  Part part;
  part.form = Solidform{{generated::along_z(generated::box({0, 0}, {10, 10}), 0, 10)}};
  plan.parts.push_back(part);
  for (const double x : {0.0, 12.0, 40.0}) {
    Instance i;
    i.name = "cube at " + std::to_string(static_cast<int>(x));
    i.pose = Pose::at({x, 0, 0});
    plan.instances.push_back(i);
  }
  return plan;
}

Finding of_clearance(const Plan& plan) {
  for (const Finding& f : check_by_rules(plan).all) {
    if (f.check == "clearance") return f;
  }
  ADD_FAILURE() << "no finding";
  return {};
}

TEST(Clearance, NamesTheNearestPairAndCountsThoseThatAreTooNear) {
  Plan plan = three_cubes();
  plan.kept_apart.push_back({"steel", "steel", {0, 1, 2}, {0, 1, 2}, 19, "heat", "keep_apart.1.least", {}});
  const Finding f = of_clearance(plan);
  EXPECT_EQ(f.verdict, Verdict::fail);
  EXPECT_DOUBLE_EQ(*f.value, 2);
  EXPECT_THAT(f.parts, testing::ElementsAre("cube at 0", "cube at 12"));
  EXPECT_THAT(f.message, testing::HasSubstr("2 pairs")) << "2 and 18 mm; the third pair stands 30 mm apart";
  EXPECT_DOUBLE_EQ(f.at->x, 11);
}

TEST(Clearance, LeavesOutWhatIsJoined) {
  Plan plan = three_cubes();
  plan.joints.push_back({0, 1, JointKind::weld, axis::x, 2});
  plan.kept_apart.push_back({"steel", "steel", {0, 1, 2}, {0, 1, 2}, 18, "heat", "keep_apart.1.least", {}});
  const Finding f = of_clearance(plan);
  EXPECT_EQ(f.verdict, Verdict::pass);
  EXPECT_DOUBLE_EQ(*f.value, 18);
  plan.joints.push_back({1, 2, JointKind::bolted, axis::x, 20});
  plan.kept_apart[0].others = {1};
  plan.kept_apart[0].parts = {0, 2};
  EXPECT_EQ(of_clearance(plan).verdict, Verdict::not_checked) << "no pair is left";
}

TEST(Clearance, AMoreLimitNeverPassesWhereALesserOneFails) {
  Plan plan = three_cubes();
  plan.kept_apart.push_back({"steel", "steel", {0}, {1, 2}, 0, "heat", "keep_apart.1.least", {}});
  bool failed = false;
  for (const double least : {1.0, 1.9999, 2.0, 2.001, 5.0, 30.0, 100.0}) {
    plan.kept_apart[0].least_mm = least;
    const bool fails = of_clearance(plan).verdict == Verdict::fail;
    EXPECT_EQ(fails, least > 2.0005) << least;
    EXPECT_FALSE(failed && !fails);
    failed = fails;
  }
}

}  // namespace
}  // namespace fitup

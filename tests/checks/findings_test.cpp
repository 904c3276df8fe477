// The overlap and joints checks on small plans whose amounts follow from the boxes' places.
#include "fitup/findings.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "checks/contacts.h"
#include "checks/depth.h"
#include "checks/joints.h"
#include "checks/order.h"
#include "checks/overlap.h"
#include "checks/shapes.h"

namespace fitup {
namespace {

using checks::Scene;
using testing::ElementsAre;
using testing::HasSubstr;

PartId add_part(Plan& plan, const std::string& mark, std::vector<Prism> prisms) {
  Part part;
  part.mark = mark;
  part.name = mark;
  part.form = Solidform{std::move(prisms)};
  plan.parts.push_back(part);
  return plan.parts.size() - 1;
}

PartId add_box(Plan& plan, const std::string& mark, Vec3 size) {
  return add_part(plan, mark, {generated::along_z(generated::box({0, 0}, {size.x, size.y}), 0, size.z)});
}

InstanceId add(Plan& plan, PartId part, const std::string& name, Vec3 at) {
  Instance i;
  i.part = part;
  i.pose = Pose::at(at);
  i.name = name;
  i.key = "key." + name;
  i.place = {0, static_cast<int>(plan.instances.size()) + 1, 1, 1};
  plan.instances.push_back(i);
  return plan.instances.size() - 1;
}

std::vector<Finding> overlap(const Plan& plan, int cores = 1, checks::Judge judge = {}) {
  const Scene scene(plan, std::move(judge));
  return checks::check_overlap(scene, checks::find_contacts(scene, cores), cores);
}

std::vector<Finding> joints(const Plan& plan, int cores = 1) {
  const Scene scene(plan, {});
  return checks::check_joints(scene, checks::find_contacts(scene, cores), cores);
}

TEST(OverlapCheck, NamesPartsAmountAndPlace) {
  Plan plan;
  const PartId cube = add_box(plan, "BLK01", {100, 50, 30});
  add(plan, cube, "first", {0, 0, 0});
  add(plan, cube, "second", {99.8, 10, 5});
  const auto found = overlap(plan);
  ASSERT_EQ(found.size(), 1U);
  EXPECT_EQ(found[0].verdict, Verdict::fail);
  EXPECT_THAT(found[0].parts, ElementsAre("BLK01 first", "BLK01 second"));
  EXPECT_NEAR(*found[0].value, 0.2, 1e-3);
  EXPECT_EQ(found[0].unit, "mm");
  EXPECT_EQ(found[0].key, "key.second");
  EXPECT_EQ(found[0].place.line, 2);
  ASSERT_TRUE(found[0].at);
  EXPECT_NEAR(found[0].at->x, 99.9, 1e-9);
  EXPECT_NEAR(found[0].at->y, 30, 1e-9);
  EXPECT_NEAR(found[0].at->z, 17.5, 1e-9);
  EXPECT_THAT(found[0].message, HasSubstr("overlap by 0.20 mm"));
}

TEST(OverlapCheck, PassesInOneFindingWithCounts) {
  Plan plan;
  const PartId cube = add_box(plan, "BLK01", {10, 10, 10});
  for (int i = 0; i < 5; ++i) add(plan, cube, "cube " + std::to_string(i), {12.0 * i, 0, 0});
  add(plan, cube, "neighbour", {0, 10, 0});
  const auto found = overlap(plan);
  ASSERT_EQ(found.size(), 1U);
  EXPECT_EQ(found[0].verdict, Verdict::pass);
  EXPECT_THAT(found[0].message, HasSubstr("15 pairs, 1 near each other, none overlaps"));
}

TEST(OverlapCheck, WorstFirstAndTheSameForAnyNumberOfCores) {
  Plan plan;
  const PartId cube = add_box(plan, "BLK01", {10, 10, 10});
  for (int i = 0; i < 12; ++i) add(plan, cube, "cube " + std::to_string(i), {(10 - 0.1 * i) * i, 0, 0});
  const auto one = overlap(plan, 1);
  const auto two = overlap(plan, 2);
  ASSERT_GT(one.size(), 8U);
  ASSERT_EQ(one.size(), two.size());
  for (std::size_t i = 0; i < one.size(); ++i) {
    EXPECT_EQ(one[i].message, two[i].message);
    EXPECT_EQ(one[i].value, two[i].value);
    EXPECT_GE(*one[i == 0 ? 0 : i - 1].value, *one[i].value - 1e-3);
  }
}

TEST(OverlapCheck, ASpaceKeptClearIsEnteredByOthersNotByItsOwner) {
  Plan plan;
  const PartId cube = add_box(plan, "BLK01", {100, 50, 30});
  const PartId plate = add_box(plan, "PLT01", {300, 2, 30});
  add(plan, cube, "block", {0, 0, 0});
  add(plan, plate, "cover", {-100, -40.5, 0});
  plan.zones.push_back({0, {{10, -40, 5}, {30, 1, 25}}, "connector", {0, 77, 1, 1}});
  const auto found = overlap(plan);
  ASSERT_EQ(found.size(), 1U);
  EXPECT_NEAR(*found[0].value, 1.5, 1e-3);
  EXPECT_EQ(found[0].place.line, 77);
  EXPECT_THAT(found[0].message, HasSubstr("PLT01 cover enters the space kept clear for BLK01 block (connector)"));
  plan.instances[1].pose = Pose::at({-100, -42, 0});
  EXPECT_EQ(overlap(plan)[0].verdict, Verdict::pass);
}

// An askew bar: no rule decides it.
Plan askew_plan() {
  Plan plan;
  const double c = std::sqrt(0.5);
  Prism bar{generated::box({-5, -5}, {5, 5}), Pose::at({0, 0, 0}, {c, c, 0}, axis::z), 50};
  add(plan, add_part(plan, "BAR01", {bar}), "brace", {0, 0, 0});
  add(plan, add_box(plan, "BLK01", {10, 10, 10}), "block", {-5, -5, -5});
  return plan;
}

TEST(OverlapCheck, WhatNoRuleDecidesIsNotCheckedWithoutAJudge) {
  const auto found = overlap(askew_plan());
  ASSERT_EQ(found.size(), 1U);
  EXPECT_EQ(found[0].verdict, Verdict::not_checked);
}

TEST(OverlapCheck, WhatNoRuleDecidesGoesToTheJudge) {
  // A judge that knows: the two share 8 mm3 until the first moves 2 mm along +X.
  checks::Judge judge;
  judge.common_volume_mm3 = [](checks::Thing, checks::Thing, Vec3 shift) -> Result<double> {
    return shift.x >= 2 ? 0.0 : 1000.0 * (2 - shift.x);
  };
  judge.distance_mm = [](checks::Thing, checks::Thing, Vec3) -> Result<double> { return 0.0; };
  const auto found = overlap(askew_plan(), 1, judge);
  ASSERT_EQ(found.size(), 1U);
  EXPECT_EQ(found[0].verdict, Verdict::fail);
  EXPECT_NEAR(*found[0].value, 2, 2e-3);
  judge.common_volume_mm3 = [](checks::Thing, checks::Thing, Vec3) -> Result<double> {
    return Failure{Failure::Kind::kernel, "common volume", "no result"};
  };
  const auto failed = overlap(askew_plan(), 1, judge);
  EXPECT_EQ(failed[0].verdict, Verdict::not_checked);
  EXPECT_THAT(failed[0].message, HasSubstr("common volume: no result"));
}

Plan two_plates(double gap, JointKind kind, double largest_gap) {
  Plan plan;
  add(plan, add_box(plan, "PLT01", {100, 50, 3}), "lower", {0, 0, 0});
  add(plan, add_box(plan, "PLT02", {100, 50, 3}), "upper", {20, 10, 3 + gap});
  plan.joints.push_back({0, 1, kind, axis::z, largest_gap, 0});
  return plan;
}

TEST(JointsCheck, AGapUpToWhatTheJointPermitsPasses) {
  for (const double gap : {0.0, 0.5, 1.0}) {
    const auto found = joints(two_plates(gap, JointKind::weld, 1));
    ASSERT_EQ(found.size(), 1U) << gap;
    EXPECT_EQ(found[0].verdict, Verdict::pass) << gap;
    EXPECT_NEAR(*found[0].value, gap, 1e-3);
  }
}

TEST(JointsCheck, AWiderGapIsMeasured) {
  const auto found = joints(two_plates(1.7, JointKind::weld, 1));
  ASSERT_EQ(found.size(), 1U);
  EXPECT_EQ(found[0].verdict, Verdict::fail);
  EXPECT_NEAR(*found[0].value, 1.7, 1e-3);
  EXPECT_NEAR(*found[0].limit, 1, 1e-12);
  EXPECT_THAT(found[0].message, HasSubstr("stands 1.70 mm off"));
}

TEST(JointsCheck, ANormalThatPointsAwayNeverMeets) {
  Plan plan = two_plates(0.5, JointKind::bolted, 1);
  plan.joints[0].normal = axis::minus_z;
  const auto found = joints(plan);
  ASSERT_EQ(found.size(), 1U);
  EXPECT_EQ(found[0].verdict, Verdict::fail);
  EXPECT_FALSE(found[0].value);
}

TEST(JointsCheck, AnEdgeIsNoFace) {
  for (const JointKind kind : {JointKind::weld, JointKind::bolted, JointKind::bearing}) {
    Plan plan = two_plates(0, kind, 1);
    EXPECT_EQ(joints(plan)[0].verdict, Verdict::pass);
    // Beside the other in place of on it: they share the edge of both.
    plan.instances[1].pose = plan.instances[1].pose.moved({80, 0, 0});
    const auto found = joints(plan);
    ASSERT_EQ(found.size(), 1U);
    EXPECT_EQ(found[0].verdict, Verdict::fail);
    EXPECT_THAT(found[0].message, HasSubstr("along an edge"));
  }
}

TEST(JointsCheck, SlipJointsMayStandFree) {
  EXPECT_EQ(joints(two_plates(5, JointKind::slip, 0))[0].verdict, Verdict::pass);
  EXPECT_EQ(joints(two_plates(0, JointKind::slip, 0))[0].verdict, Verdict::pass);
}

TEST(JointsCheck, AContactThatNobodyStatedIsAFinding) {
  Plan plan = two_plates(0, JointKind::weld, 1);
  plan.joints.clear();
  const auto found = joints(plan);
  ASSERT_EQ(found.size(), 1U);
  EXPECT_EQ(found[0].verdict, Verdict::fail);
  EXPECT_THAT(found[0].message, HasSubstr("PLT01 lower touches PLT02 upper without a stated joint"));
}

TEST(JointsCheck, AJointStatedFromTheOtherSideCounts) {
  Plan plan = two_plates(0.5, JointKind::weld, 1);
  plan.joints[0] = {1, 0, JointKind::weld, axis::minus_z, 1, 0};
  EXPECT_EQ(joints(plan)[0].verdict, Verdict::pass);
}

TEST(Findings, FailOnlyWhereACheckFails) {
  Findings findings;
  Finding one;
  findings.all.push_back(one);
  EXPECT_FALSE(findings.failed());
  one.verdict = Verdict::fail;
  findings.all.push_back(one);
  EXPECT_TRUE(findings.failed());
}

TEST(Order, NumbersAreGroupedAndSmallLengthsKeepTheirFigures) {
  EXPECT_EQ(checks::grouped(0), "0");
  EXPECT_EQ(checks::grouped(44850), "44,850");
  EXPECT_EQ(checks::grouped(1234567), "1,234,567");
  EXPECT_EQ(checks::length_text(0.2), "0.20");
  EXPECT_EQ(checks::length_text(0.0123), "0.012");
  EXPECT_EQ(checks::length_text(0.00123), "0.0012");
}

}  // namespace
}  // namespace fitup

// What holds together, what thread shares, and many findings of one cause, on small plans.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "checks/causes.h"
#include "checks/contacts.h"
#include "checks/held.h"
#include "checks/joints.h"
#include "checks/shapes.h"
#include "fitup/findings.h"

namespace fitup {
namespace {

using checks::Scene;
using testing::ElementsAre;
using testing::HasSubstr;

InstanceId add(Plan& plan, const std::string& mark, Role role, std::vector<Prism> prisms, Vec3 at) {
  Part part;
  part.mark = mark;
  part.role = role;
  part.form = Solidform{std::move(prisms)};
  plan.parts.push_back(part);
  Instance i;
  i.part = plan.parts.size() - 1;
  i.pose = Pose::at(at);
  i.name = "no " + std::to_string(plan.instances.size());
  plan.instances.push_back(i);
  return plan.instances.size() - 1;
}

InstanceId add_cube(Plan& plan, const std::string& mark, Role role, double x) {
  return add(plan, mark, role, {generated::along_z(generated::box({0, 0}, {10, 10}), 0, 10)}, {x, 0, 0});
}

std::vector<Finding> held(const Plan& plan) { return checks::check_held(Scene(plan, {})); }

TEST(HeldCheck, EveryKindOfJointHoldsButASlip) {
  for (const JointKind kind :
       {JointKind::weld, JointKind::bolted, JointKind::bearing, JointKind::thread, JointKind::slip}) {
    Plan plan;
    add_cube(plan, "ANG01", Role::ring_member, 0);
    add_cube(plan, "PLT01", Role::rail, 10);
    plan.joints.push_back({1, 0, kind, axis::minus_x, 0, 0});
    EXPECT_EQ(held(plan)[0].verdict, kind == JointKind::slip ? Verdict::fail : Verdict::pass) << to_text(kind);
  }
}

TEST(HeldCheck, AGroupWithoutTheFrameIsOneFindingWithItsMembers) {
  Plan plan;
  add_cube(plan, "ITM01", Role::item, 40);
  add_cube(plan, "ANG01", Role::ring_member, 0);
  add_cube(plan, "ROD01", Role::rod, 50);
  add_cube(plan, "ITM02", Role::item, 80);
  plan.joints.push_back({2, 0, JointKind::thread, axis::x, 0, 6});
  const auto found = held(plan);
  ASSERT_EQ(found.size(), 2U);
  EXPECT_THAT(found[0].parts, ElementsAre("ITM01 no 0", "ROD01 no 2"));
  EXPECT_THAT(found[1].parts, ElementsAre("ITM02 no 3"));
  EXPECT_EQ(found[1].verdict, Verdict::fail);
}

// An M4 screw, its tip at z = 0, in a plate from z = 0 to 4 that is drilled 3.3.
Plan screwed(double pulled_out_mm) {
  Plan plan;
  add(plan, "SCR01", Role::screw, {{{Loop::circle({}, 2), {}}, Pose{}, 20}}, {0, 0, pulled_out_mm});
  add(plan, "PLT01", Role::rail, {{{Loop::rectangle({-20, -20}, {20, 20}), {Loop::circle({}, 1.65)}}, Pose{}, 4}},
      {0, 0, 0});
  plan.joints.push_back({0, 1, JointKind::thread, axis::minus_z, 0, 4});
  plan.fasteners.push_back({"M4", 0, {1}, 4, 0});
  return plan;
}

std::vector<Finding> joints(const Plan& plan) {
  const Scene scene(plan, {});
  return checks::check_joints(scene, checks::find_contacts(scene, 1), 1);
}

TEST(JointsCheck, AThreadIsFullOrFallsShort) {
  EXPECT_EQ(joints(screwed(0))[0].verdict, Verdict::pass);
  const auto found = joints(screwed(1.5));
  ASSERT_EQ(found.size(), 1U);
  EXPECT_EQ(found[0].verdict, Verdict::fail);
  EXPECT_NEAR(*found[0].value, 2.5, 1e-9);
  EXPECT_NEAR(*found[0].limit, 4, 1e-9);
  EXPECT_THAT(found[0].message, HasSubstr("share 2.50 mm of thread and need 4.00 mm"));
}

TEST(JointsCheck, ANutWantsThreadOverItsWholeHeight) {
  Plan plan = screwed(1.5);
  plan.parts[1].role = Role::nut;
  plan.fasteners.clear();
  EXPECT_NEAR(*joints(plan)[0].limit, 4, 1e-9);
  EXPECT_EQ(joints(plan)[0].verdict, Verdict::fail);
}

TEST(JointsCheck, ABoltedJointIsMarginalBeyondHalfOfWhatItPermits) {
  for (const auto& [gap, verdict] : {std::pair{2.0, Verdict::pass}, {2.5, Verdict::marginal}, {4.5, Verdict::fail}}) {
    Plan plan;
    add_cube(plan, "PLT01", Role::cover_flange, 0);
    add_cube(plan, "PLT02", Role::upright, 10 + gap);
    plan.joints.push_back({0, 1, JointKind::bolted, axis::x, 4, 0});
    EXPECT_EQ(joints(plan)[0].verdict, verdict) << gap;
  }
}

Finding finding(const std::string& cause, double value, const std::string& part) {
  Finding f;
  f.check = "overlap";
  f.verdict = Verdict::fail;
  f.cause = cause;
  f.value = value;
  f.message = part;
  f.parts = {part, "cover"};
  return f;
}

TEST(Causes, ManyOfOneAreTheWorstWithTheirCountAndAllParts) {
  const auto kept = checks::one_for_each_cause({finding("a", 3, "rod 1"), finding("b", 2, "nut"),
                                                finding("a", 1, "rod 2"), finding("", 1, "x"), finding("", 1, "y")});
  ASSERT_EQ(kept.size(), 4U);
  EXPECT_EQ(kept[0].count, 2U);
  EXPECT_EQ(*kept[0].value, 3);
  EXPECT_THAT(kept[0].parts, ElementsAre("rod 1", "cover", "rod 2"));
  EXPECT_THAT(kept[0].message, HasSubstr("2 such in all"));
  EXPECT_EQ(kept[1].count, 1U);
  EXPECT_EQ(kept[1].message, "nut");
}

}  // namespace
}  // namespace fitup

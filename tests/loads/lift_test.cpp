// What lifting eyes are rated for, on small plans.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "checks/shapes.h"
#include "loads/lift.h"

namespace fitup {
namespace {

InstanceId add_cube(Plan& plan, const std::string& mark, Role role, double x) {
  Part part;
  part.mark = mark;
  part.role = role;
  part.form = Solidform{{generated::along_z(generated::box({0, 0}, {10, 10}), 0, 10)}};
  plan.parts.push_back(part);
  Instance i;
  i.part = plan.parts.size() - 1;
  i.pose = Pose::at({x, 0, 0});
  i.name = "no " + std::to_string(plan.instances.size());
  plan.instances.push_back(i);
  return plan.instances.size() - 1;
}

// DIN 580: an M10 eye takes 170 kg at 45 degrees (fixtures/eyes_din580.csv). Two of four carry.
TEST(LiftCheck, HoldsHalfTheWholeAgainstAnEye) {
  const std::pair<double, Verdict> cases[] = {
      {290, Verdict::pass}, {300, Verdict::marginal}, {339, Verdict::marginal}, {341, Verdict::fail}};
  for (const auto& [mass, verdict] : cases) {
    Plan plan;
    for (int i = 0; i < 4; ++i) {
      plan.lift_points.push_back({add_cube(plan, "BOS01", Role::boss, 20.0 * i), {}, "M10"});
    }
    plan.parts[plan.instances[0].part].mass_kg = mass;
    const auto found = loads::check_lift(plan);
    ASSERT_EQ(found.size(), 1U);
    EXPECT_EQ(found[0].verdict, verdict) << mass;
    EXPECT_NEAR(*found[0].value, mass / 2, 1e-9);
    EXPECT_NEAR(*found[0].limit, 170, 1e-9);
  }
}

TEST(LiftCheck, IsSilentWithoutLiftPoints) { EXPECT_TRUE(loads::check_lift(Plan{}).empty()); }

}  // namespace
}  // namespace fitup

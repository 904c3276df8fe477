// The check "held" over the bearers between two boxes: with them all hangs together, without their bolts a box is
// loose.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "checks/held.h"
#include "checks/planned.h"

namespace fitup {
namespace {

bool begins_with(const Plan& plan, InstanceId id, const char* start) {
  return plan.instances[id].name.rfind(start, 0) == 0;
}

// Whether it joins a bearer to the ring of the box that hangs there.
bool is_hanger(const Plan& plan, const Joint& j) {
  const auto joins = [&plan](InstanceId a, InstanceId b) {
    return begins_with(plan, a, "lower bearer") && begins_with(plan, b, "lower top ring");
  };
  return joins(j.a, j.b) || joins(j.b, j.a);
}

std::size_t size_of_lower_box(const Plan& plan) {
  std::size_t count = 0;
  for (InstanceId id = 0; id < plan.instances.size(); ++id) {
    if (begins_with(plan, id, "lower ") && !begins_with(plan, id, "lower bearer")) ++count;
  }
  return count;
}

TEST(HeldCheck, ReachesOverTheBearersAndOverNothingElse) {
  const auto path = std::filesystem::path(FITUP_EXAMPLES) / "park-locomotive" / "front-box-with-lower.toml";
  const auto planned = test::planned(path.string(), test::text_of(path));
  ASSERT_TRUE(planned->plan);
  Plan plan = *planned->plan;
  EXPECT_EQ(checks::check_held(checks::Scene(plan, {})).front().verdict, Verdict::pass);

  std::erase_if(plan.joints, [&plan](const Joint& j) { return is_hanger(plan, j); });
  const auto found = checks::check_held(checks::Scene(plan, {}));
  ASSERT_EQ(found.size(), 1U) << "the whole lower box is one group";
  EXPECT_EQ(found[0].verdict, Verdict::fail);
  EXPECT_EQ(found[0].parts.size(), size_of_lower_box(plan));
}

}  // namespace
}  // namespace fitup

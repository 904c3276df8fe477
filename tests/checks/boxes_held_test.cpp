// The check "held" over the bearers between two boxes: with them all hangs together, without their bolts a box is
// loose.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "checks/held.h"
#include "checks/planned.h"

namespace fitup {
namespace {

TEST(HeldCheck, ReachesOverTheBearersAndOverNothingElse) {
  const auto path = std::filesystem::path(FITUP_EXAMPLES) / "park-locomotive" / "front-box-with-lower.toml";
  const auto planned = test::planned(path.string(), test::text_of(path));
  ASSERT_TRUE(planned->plan);
  Plan plan = *planned->plan;
  const auto held = [&plan] { return checks::check_held(checks::Scene(plan, {})); };
  EXPECT_EQ(held().front().verdict, Verdict::pass);

  const auto of_bearer = [&plan](InstanceId id) { return plan.instances[id].name.rfind("lower bearer", 0) == 0; };
  const auto of_lower_ring = [&plan](InstanceId id) { return plan.instances[id].name.rfind("lower top ring", 0) == 0; };
  std::erase_if(plan.joints, [&](const Joint& j) {
    return (of_bearer(j.a) && of_lower_ring(j.b)) || (of_bearer(j.b) && of_lower_ring(j.a));
  });
  const auto found = held();
  ASSERT_EQ(found.size(), 1U) << "the whole lower box is one group";
  EXPECT_EQ(found[0].verdict, Verdict::fail);
  std::size_t of_box = 0;
  for (const Instance& i : plan.instances)
    of_box += i.name.rfind("lower ", 0) == 0 && i.name.rfind("lower bearer", 0) != 0;
  EXPECT_EQ(found[0].parts.size(), of_box);
}

}  // namespace
}  // namespace fitup

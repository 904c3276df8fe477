// The space that the whole goes into, in the plan's coordinates, worked out by hand of the demo's frame: 984 x 518 x
// 329 mm.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "plan/framed/planned.h"
#include "spec/spec_of.h"

namespace fitup {
namespace {

using test::plan_demo;

constexpr const char* lifting = "[lifting]\n";

std::string with(const std::string& space) { return space + "\n[lifting]\n"; }

void expect_at(Vec3 found, Vec3 wanted) {
  EXPECT_LT(norm(found - wanted), 1e-6) << found.x << " " << found.y << " " << found.z;
}

TEST(Space, LiesRoundTheFrameAsItSaysWhereThatStands) {
  const auto p = plan_demo({{lifting, with("[space]\nsize = [1100, 600, 400]\nat = [50, 30, 10]\n")}});
  ASSERT_TRUE(p.result.plan) << p.said();
  const auto& space = p.result.plan->space;
  ASSERT_TRUE(space);
  EXPECT_TRUE(space->placed);
  EXPECT_EQ(space->play_mm, 5);
  expect_at(space->box.low, {-50, -30, -10});
  expect_at(space->box.high, {1050, 570, 390});
}

// The whole is 996.4 mm across and symmetrical there: its flanges and screw heads stand 6.2 mm out on either side.
TEST(Space, WithoutAPlaceHasTheWholeOnItsFloorInItsMiddle) {
  const auto p = plan_demo({{lifting, with("[space]\nsize = [{ value = 1100, within = 2 }, 600, 400]\n")}});
  ASSERT_TRUE(p.result.plan) << p.said();
  const auto& space = p.result.plan->space;
  ASSERT_TRUE(space);
  EXPECT_FALSE(space->placed);
  EXPECT_EQ(space->within.x, 2);
  EXPECT_NEAR(space->box.low.x, 984.0 / 2 - 1100.0 / 2, 1e-6);
  EXPECT_NEAR(space->box.low.z, 0, 1e-6);
}

// Turned left for right the frame stands 50 mm from the right wall, and what was at the left wall is at the right one.
TEST(Space, IsReflectedWithItsBox) {
  const std::string base =
      std::string(test::small_spec) + ("\n[space]\nsize = [1100, 600, 400]\nat = [50, 30, 10]\nin_the_way = [{ at = "
                                       "[0, 0, 0], size = [100, 50, 40] }]\n");
  const SpecResult read = test::read_files(
      {{"spec.toml", "start_from = \"base.toml\"\nopposite_hand = \"left-right\"\n"}, {"base.toml", base}});
  ASSERT_TRUE(read.spec);
  const PlanResult result = make_plan(lay_out(*read.spec));
  ASSERT_TRUE(result.plan);
  const auto& space = result.plan->space;
  ASSERT_TRUE(space);
  const double frame = result.plan->frame_size.x;
  expect_at(space->box.low, {frame + 50 - 1100, -30, -10});
  ASSERT_EQ(space->taken.size(), 1U);
  expect_at(space->taken[0].box.low, {frame + 50 - 100, -30, -10});
  expect_at(space->taken[0].box.high, {frame + 50, 20, 30});
}

}  // namespace
}  // namespace fitup

// Plates welded round on others: what is shut in between, and what lets it out.
#include "checks/shut_overlaps.h"

#include <gtest/gtest.h>

#include "checks/shapes.h"

namespace fitup::checks {
namespace {

constexpr double t = 6;
constexpr double inch = 25.4;

InstanceId add_flat(Plan& plan, Profile profile, Vec3 at) {
  Part part;
  part.form = Flat{std::move(profile), t, {}};
  plan.parts.push_back(std::move(part));
  Instance instance;
  instance.part = plan.parts.size() - 1;
  instance.pose = Pose::at(at);
  plan.instances.push_back(instance);
  return plan.instances.size() - 1;
}

/// A plate of 110 x `wide_mm` in the middle of a larger one.
Plan lapped(double wide_mm, double hole_mm = 0) {
  Plan plan;
  const InstanceId under = add_flat(plan, generated::box({0, 0}, {400, 600}), {0, 0, 0});
  Profile profile = generated::box({0, 0}, {110, wide_mm});
  if (hole_mm > 0) profile.holes.push_back(Loop::circle({40, 40}, hole_mm / 2));
  const InstanceId over = add_flat(plan, std::move(profile), {50, 20, t});
  plan.joints.push_back({under, over, JointKind::weld, axis::z, 0});
  plan.weld_rules = {WeldRule{}};
  return plan;
}

Overlap overlap_of(const Plan& plan) {
  const auto all = overlaps_of(Scene(plan, {}));
  EXPECT_EQ(all.size(), 1U);
  return all.empty() ? Overlap{} : all.front();
}

// 110 x 90 = 99 cm2 are less than 16 in2 = 103.2 cm2, 110 x 100 are more.
TEST(Overlap, WeldedRoundIsShutAndNeedsAVentBeyondSixteenSquareInches) {
  const Overlap small = overlap_of(lapped(90));
  EXPECT_NEAR(small.area_mm2, 9900, 1e-6);
  EXPECT_NEAR(small.open_mm, 0, 1e-6);
  EXPECT_TRUE(is_vented(small));
  const Overlap large = overlap_of(lapped(100));
  EXPECT_NEAR(large.area_mm2, 11000, 1e-6);
  EXPECT_FALSE(is_vented(large));
  EXPECT_EQ(large.parts.size(), 2U);
  EXPECT_NEAR(large.at.x, 105, 1e-6);
}

TEST(Overlap, IsVentedByAHoleThatIsLargeEnough) {
  EXPECT_FALSE(is_vented(overlap_of(lapped(100, 9))));
  const Overlap vented = overlap_of(lapped(100, 10));
  ASSERT_EQ(vented.holes_mm.size(), 1U);
  EXPECT_NEAR(vented.holes_mm.front(), 10, 1e-6);
  EXPECT_TRUE(is_vented(vented));
}

// Beyond 400 in2 it takes more than one hole, each large enough; many small ones are none.
TEST(Overlap, OfManyHolesThoseCountThatAreLargeEnough) {
  Overlap wide;
  wide.area_mm2 = 801 * inch * inch;
  wide.holes_mm = {19.1, 19.1};
  EXPECT_FALSE(is_vented(wide));
  wide.holes_mm.push_back(20);
  EXPECT_TRUE(is_vented(wide));
  wide.area_mm2 = 60 * inch * inch;
  wide.holes_mm = std::vector<double>(25, 2.0);
  EXPECT_FALSE(is_vented(wide));
}

// A strip across a window of 200 mm lies on 100 x 100 mm to either side of it: two overlaps, each within 16 in2, one of
// them with a hole.
TEST(Overlap, OfTwoPatchesIsTwo) {
  Plan plan;
  Profile frame = generated::box({0, 0}, {400, 600});
  frame.holes.push_back(generated::box({100, 100}, {300, 500}).outer.reversed());
  const InstanceId under = add_flat(plan, std::move(frame), {0, 0, 0});
  Profile strip = generated::box({0, 0}, {400, 100});
  strip.holes.push_back(Loop::circle({50, 50}, 6));
  const InstanceId over = add_flat(plan, std::move(strip), {0, 250, t});
  plan.joints.push_back({under, over, JointKind::weld, axis::z, 0});
  plan.weld_rules = {WeldRule{}};
  const auto all = overlaps_of(Scene(plan, {}));
  ASSERT_EQ(all.size(), 2U);
  for (const Overlap& one : all) EXPECT_NEAR(one.area_mm2, 10000, 1e-6);
  EXPECT_EQ(all[0].holes_mm.size() + all[1].holes_mm.size(), 1U);
}

TEST(Overlap, IsVentedByTheGapsOfAnIntermittentSeam) {
  Plan plan = lapped(100);
  plan.weld_rules.front().element_mm = 30;
  plan.weld_rules.front().distance_mm = 30;
  const Overlap open = overlap_of(plan);
  EXPECT_GT(open.open_mm, inch);
  EXPECT_LT(open.open_mm, 2 * (110 + 100) / 2.0);
  EXPECT_TRUE(is_vented(open));
}

// Two strips that meet end to end under one plate shut in what is between as one.
TEST(Overlap, OfContactsThatGoOnIntoEachOtherIsOne) {
  Plan plan;
  const InstanceId left = add_flat(plan, generated::box({0, 0}, {200, 300}), {0, 0, 0});
  const InstanceId right = add_flat(plan, generated::box({0, 0}, {200, 300}), {200, 0, 0});
  const InstanceId over = add_flat(plan, generated::box({0, 0}, {120, 80}), {140, 100, t});
  plan.joints.push_back({left, over, JointKind::weld, axis::z, 0});
  plan.joints.push_back({right, over, JointKind::weld, axis::z, 0});
  plan.weld_rules = {WeldRule{}};
  const Overlap one = overlap_of(plan);
  EXPECT_NEAR(one.area_mm2, 9600, 1e-6);
  EXPECT_NEAR(one.open_mm, 0, 1e-6);
  EXPECT_EQ(one.parts.size(), 3U);
}

// Where it stands on its edge there is no overlap.
TEST(Overlap, IsNoneOfAPlateOnEdge) {
  Plan plan = lapped(100);
  plan.instances.back().pose = Pose::at({50, 20, t}, axis::x, axis::z);
  EXPECT_TRUE(overlaps_of(Scene(plan, {})).empty());
}

// ASTM A385's table, from memory: 16, 64 and 400 in2.
TEST(OverlapVent, IsThatOfTheTable) {
  EXPECT_EQ(overlap_vent(16 * inch * inch).holes, 0U);
  EXPECT_NEAR(overlap_vent(17 * inch * inch).hole_mm, 9.525, 1e-9);
  EXPECT_NEAR(overlap_vent(17 * inch * inch).open_mm, inch, 1e-9);
  EXPECT_NEAR(overlap_vent(65 * inch * inch).hole_mm, 12.7, 1e-9);
  EXPECT_NEAR(overlap_vent(400 * inch * inch).open_mm, 2 * inch, 1e-9);
  EXPECT_EQ(overlap_vent(801 * inch * inch).holes, 3U);
  EXPECT_NEAR(overlap_vent(801 * inch * inch).hole_mm, 19.05, 1e-9);
  EXPECT_NEAR(overlap_vent(801 * inch * inch).open_mm, 12 * inch, 1e-9);
}

}  // namespace
}  // namespace fitup::checks

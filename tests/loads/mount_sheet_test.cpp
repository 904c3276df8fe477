// The sheet under a foot or a lug, with its doubler: levers, the line's length and the stress by hand.
#include "loads/mount_sheet.h"

#include <gtest/gtest.h>

#include "loads/held_lines.h"
#include "lug_on_wall.h"

namespace fitup::loads {
namespace {

using test::t;

struct Wall : test::LugOnWall {
  using test::LugOnWall::LugOnWall;
  [[nodiscard]] std::optional<MountSheet> sheet() const { return mount_sheet(plan, seams, hole); }
};

// From the bolt to the seam 23 mm; the lug ends 22 mm beyond that: 50 + 2 x 22 = 94 mm of the line take what the bolt
// does. 1000 N off and 500 N across, 1.5 mm from the wall's middle: 23750 Nmm over 94 mm of a sheet of 3 mm.
TEST(MountSheet, BendsAboutTheNextSeamWithWhatTheBoltPulls) {
  const Wall w;
  const auto s = w.sheet();
  ASSERT_TRUE(s);
  EXPECT_EQ(s->sheet, w.wall);
  EXPECT_EQ(s->root, w.side);
  EXPECT_FALSE(s->doubler);
  EXPECT_NEAR(s->tension_lever_mm, 23, 1e-9);
  EXPECT_NEAR(s->shear_lever_mm, 1.5, 1e-9);
  EXPECT_NEAR(s->length_mm, 94, 1e-9);
  EXPECT_NEAR(sheet_mpa(*s, {1000, 500}), (1000 * 23 + 500 * 1.5) / 94 / (9.0 / 4), 1e-9);
  EXPECT_NEAR(sheet_mpa(*s, {-1000, 0}), 0, 1e-12) << "pressed, the side's edge carries";
}

TEST(MountSheet, GoesNoFartherThanItsSeam) {
  Wall w;
  w.seams.all.front().to.z = 140;
  EXPECT_NEAR(w.sheet()->length_mm, 47 + 15, 1e-9);
  w.seams.all.front().to.z = 120;
  EXPECT_FALSE(w.sheet()) << "no seam lies beside the lug";
}

// Behind the seam by its own thickness and welded all round, it bends as one with the wall: a quarter of the stress,
// but for the shear's lever, which is a doubler longer.
TEST(MountSheet, ADoublerAcrossTheSeamBendsAsOneWithItsSheet) {
  const auto s = Wall(0).sheet();
  ASSERT_TRUE(s && s->doubler);
  EXPECT_TRUE(s->as_one);
  EXPECT_NEAR(s->thickness_mm, 6, 1e-12);
  EXPECT_NEAR(s->shear_lever_mm, 4.5, 1e-9);
  EXPECT_NEAR(sheet_mpa(*s, {1000, 0}), sheet_mpa(*Wall().sheet(), {1000, 0}) / 4, 1e-9);
}

// It begins 2 mm beyond the seam: what it brings there is as wide as itself and 45 degrees more.
TEST(MountSheet, ADoublerThatEndsBeforeTheSeamSpreadsTheLoad) {
  Wall w(5);
  const auto s = w.sheet();
  ASSERT_TRUE(s && s->doubler);
  EXPECT_FALSE(s->as_one);
  EXPECT_NEAR(s->thickness_mm, 3, 1e-12);
  EXPECT_NEAR(s->length_mm, 94, 1e-9) << "its 80 mm and twice 2 mm are less than what the lug itself spreads over";
  w.plan.parts[w.doubler].form = Flat{generated::box({0, 0}, {35, 120}), t, {}};
  w.plan.instances[w.doubler].pose = Pose::at({5, 0, 65}, axis::x, axis::z);
  EXPECT_NEAR(w.sheet()->length_mm, 124, 1e-9);
}

TEST(MountSheet, AFootUnderTheEdgeOfAWallBendsNoSheet) {
  Wall w;
  w.plan.instances[w.lug].pose = Pose::at({100, 3, 0}, axis::x, axis::y);
  w.plan.joints.back() = {w.lug, w.wall, JointKind::weld, axis::z};
  EXPECT_FALSE(w.sheet());
  EXPECT_TRUE(stands_on_edges(w.plan, w.lug));
  EXPECT_FALSE(stands_on_edges(Wall().plan, Wall().lug));
}

TEST(HeldLines, ArePiecesOfOneLineTogetherTheNearestFirst) {
  Wall w;
  const InstanceId rib =
      w.add_flat(Role::rib, generated::box({0, 0}, {300, 50}), t, Pose::at({50, 3, 0}, axis::y, axis::z));
  const std::size_t joint = w.weld(w.wall, rib, axis::y);
  w.seam(joint, {50, 3, 100}, {50, 3, 120});
  w.seam(joint, {50, 3, 140}, {50, 3, 180});
  const auto lines = held_lines(w.plan, w.seams, w.wall, {30, 3, 130}, {w.lug});
  ASSERT_EQ(lines.size(), 2U);
  EXPECT_EQ(lines[0].root, rib);
  EXPECT_NEAR(lines[0].off_mm, 20, 1e-9);
  EXPECT_NEAR(lines[0].to_mm - lines[0].from_mm, 80, 1e-9);
  EXPECT_NEAR(lines[1].off_mm, 27, 1e-9);
}

}  // namespace
}  // namespace fitup::loads

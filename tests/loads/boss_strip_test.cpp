// The plate under a lift boss: its strip by hand, what a doubler is worth, and how the load spreads against plate elements.
#include "loads/boss_strip.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

#include "checks/shapes.h"
#include "loads/boss.h"
#include "loads/flats_by_hand.h"
#include "loads/frame_solver.h"

namespace fitup::loads {
namespace {

constexpr double t = 4;
constexpr double boss_mm = 30;
constexpr double arm_mm = 18;

/// A top in the plane z = 300 on a wall along x = 0, a boss 18 mm from there, and maybe a doubler of 60 x 40 under it
/// that begins `from_wall_mm` from the wall.
struct Top : FlatsByHand {
  InstanceId wall = add_flat(Role::wall, generated::box({0, 0}, {300, 300}), t, Pose::at({0, 0, 0}, axis::y, axis::z));
  InstanceId top = add_flat(Role::wall, generated::box({0, 0}, {400, 400}), t, Pose::at({0, 0, 300}));
  InstanceId boss = add_flat(Role::boss, generated::box({0, 0}, {1, 1}), 20, Pose::at({arm_mm, 150, 290}));
  InstanceId doubler = 0;
  LiftPoint point;

  Top() {
    leg_mm = 4;
    weld(boss, top);
    seam(weld(top, wall), {0, 0, 300}, {0, 300, 300});
    point = {boss, {arm_mm, 150, 308}, "M10"};
  }

  /// 60 along the wall, 40 away from it.
  void add_doubler(double from_wall_mm, bool held, bool round) {
    doubler = add_flat(Role::doubler, generated::box({0, 0}, {40, 60}), t, Pose::at({from_wall_mm, 120, 296}));
    const double low = from_wall_mm, high = from_wall_mm + 40;
    weld(boss, doubler);
    const std::size_t under = weld(doubler, top);
    seam(under, {high, 120, 300}, {high, 180, 300});
    if (round) {
      seam(under, {low, 120, 300}, {high, 120, 300});
      seam(under, {low, 180, 300}, {high, 180, 300});
    }
    if (held) seam(weld(doubler, wall), {0, 120, 296}, {0, 180, 296});
    if (round && !held) seam(under, {low, 120, 300}, {low, 180, 300});
  }

  [[nodiscard]] BossStrip strip() const { return *boss_strip(plan, seams, point, top, boss_mm); }
};

TEST(BossStrip, IsAsLongAsTheBossAnd45DegreesToEitherSide) {
  const BossStrip s = Top().strip();
  EXPECT_DOUBLE_EQ(s.arm_mm, arm_mm);
  EXPECT_DOUBLE_EQ(s.length_mm, 30 + 2 * 18);
  EXPECT_DOUBLE_EQ(s.modulus_mm2, 4);
  EXPECT_DOUBLE_EQ(s.elastic_mm2, 16.0 / 6);
  EXPECT_FALSE(s.doubler);
  // 1200 N at 18 mm over 66 mm of a plate of 4 mm: 21600 / 66 / 4.
  EXPECT_NEAR(strip_bending_mpa({1200, 0, 0}, s.arm_mm, s.length_mm, s.modulus_mm2), 81.82, 0.005);
  // Pulled across as well, 50 mm above: 60000 - 21600 the other way about.
  EXPECT_NEAR(strip_bending_mpa({1200, 1200, 50}, s.arm_mm, s.length_mm, s.modulus_mm2), 38400.0 / 66 / 4, 1e-9);
}

TEST(BossStrip, GoesNoFartherThanItsSeam) {
  Top top;
  top.point.at.y = 10;
  EXPECT_DOUBLE_EQ(top.strip().length_mm, 10 + 15 + 18);
  top.point.at.y = 310;
  EXPECT_FALSE(boss_strip(top.plan, top.seams, top.point, top.top, boss_mm)) << "no seam lies beside the boss";
}

TEST(BossStrip, PiecesOfOneLineAreOneAndTheNearestLineCounts) {
  Top top;
  top.seams.all.clear();
  const std::size_t joint = 1;
  top.seam(joint, {0, 180, 300}, {0, 300, 300});
  top.seam(joint, {0, 100, 300}, {0, 160, 300});
  EXPECT_DOUBLE_EQ(top.strip().length_mm, 66);
  const InstanceId rib = top.add_flat(Role::rib, generated::box({0, 0}, {300, 50}), t, Pose::at({30, 0, 250}));
  top.seam(top.weld(top.top, rib), {30, 100, 300}, {30, 300, 300});
  EXPECT_DOUBLE_EQ(top.strip().arm_mm, 12);
  EXPECT_EQ(top.strip().root, rib);
  top.seams.all.back().state = SeamState::left_free;
  EXPECT_DOUBLE_EQ(top.strip().arm_mm, arm_mm) << "a seam that is not laid holds nothing";
}

TEST(BossStrip, ADoublerAllRoundBendsAsOneWithItsPlateAndQuartersTheStress) {
  Top top;
  top.add_doubler(4, true, true);
  const BossStrip s = top.strip();
  EXPECT_EQ(s.works, DoublerWorks::together);
  EXPECT_EQ(s.doubler, top.doubler);
  EXPECT_DOUBLE_EQ(s.modulus_mm2, 8.0 * 8 / 4);
  EXPECT_DOUBLE_EQ(s.sheared_mm, 8);
}

TEST(BossStrip, ADoublerThatMaySlideBendsByItself) {
  Top top;
  top.add_doubler(4, true, false);
  const BossStrip s = top.strip();
  EXPECT_EQ(s.works, DoublerWorks::side_by_side);
  EXPECT_DOUBLE_EQ(s.modulus_mm2, 2 * 4.0 * 4 / 4);
  EXPECT_DOUBLE_EQ(s.elastic_mm2, 2 * 4.0 * 4 / 6);
}

// It ends 8 mm before the wall: 60 mm and 8 to either side are 76 mm of the seam, in place of 66; the plate is alone.
TEST(BossStrip, ADoublerThatEndsBeforeTheSeamSpreadsTheLoad) {
  Top top;
  top.add_doubler(8, false, true);
  const BossStrip s = top.strip();
  EXPECT_EQ(s.works, DoublerWorks::spreads);
  EXPECT_DOUBLE_EQ(s.length_mm, 76);
  EXPECT_DOUBLE_EQ(s.modulus_mm2, 4);
}

// A point load F at the edge of a wide cantilever plate bends its root beside it with 0.509 F for each mm, elastically
// (Roark, beams of relatively great width, from memory; Jaramillo, 1950), of which 45 degrees to either side make F / 2.
// The plate elements say the same: 20 mm deep, 200 mm wide.
TEST(BossStrip, FortyFiveDegreesAreWhatAWideCantileverPlateDoes) {
  constexpr int nx = 80, ny = 16;
  constexpr double deep = 20, wide = 200, force = 1000;
  Frame frame;
  for (int j = 0; j <= ny; ++j) {
    for (int i = 0; i <= nx; ++i) frame.nodes.push_back({wide * i / nx, deep * j / ny, 0});
  }
  const auto node = [](int i, int j) { return static_cast<std::size_t>(j * (nx + 1) + i); };
  for (int j = 0; j < ny; ++j) {
    for (int i = 0; i < nx; ++i) {
      FramePanel p;
      p.nodes = {node(i, j), node(i + 1, j), node(i + 1, j + 1), node(i, j + 1)};
      p.x = axis::x;
      p.y = axis::y;
      p.width_mm = wide / nx;
      p.height_mm = deep / ny;
      p.thickness_mm = 2;
      p.elastic = {210000, 210000 / 2.6};
      frame.panels.push_back(p);
    }
  }
  for (int i = 0; i <= nx; ++i) frame.supports.push_back({node(i, 0), clamped});
  const auto solver = FrameSolver::factor(frame);
  ASSERT_TRUE(solver);
  LoadCase load;
  load.nodes.push_back({node(nx / 2, ny), {0, 0, force}, {}});
  const FrameResult r = solver->solve(load);
  const double at_root = std::abs(r.reaction_moment[nx / 2].x) / (wide / nx);
  EXPECT_NEAR(at_root, 0.509 * force, 0.01 * force);
  EXPECT_NEAR(strip_bending_mpa({force, 0, 0}, deep, 2 * deep, 1), at_root, 0.02 * force);
}

}  // namespace
}  // namespace fitup::loads

// Slings in the frame's model: each leg pulls towards the hook, by own statics.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "loads/frame_check.h"
#include "loads/lift.h"
#include "loads/solved_box.h"

namespace fitup::loads {
namespace {

std::unique_ptr<SolvedBox> front_box(const std::string& angle_deg) {
  return solved_box("park-locomotive/front-box.toml", {{"lifting.sling_angle", angle_deg}});
}

/// The legs' loads are a lift's last ones, a point each.
std::vector<NodeLoad> legs_of(const SolvedBox& box, const FrameCase& c) {
  const auto count = static_cast<std::ptrdiff_t>(box.plan().lift_points.size());
  return {c.load.nodes.end() - count, c.load.nodes.end()};
}

// Legs from one hook: what each does to the frame has no moment about the hook. That stands over the centre of mass, which
// the shares give, half of the points' diagonal above the rings at 45 degrees, 1.732 times that at 30.
TEST(Slings, AllPullAtOneHook) {
  for (const auto& [angle, height] : {std::pair{"45", 1.0}, {"30", std::sqrt(3.0)}}) {
    const auto box = front_box(angle);
    const auto& points = box->plan().lift_points;
    double diagonal = 0;
    for (const LiftPoint& p : points) diagonal = std::max(diagonal, norm(p.at - points[0].at));
    std::size_t lifts = 0;
    for (const FrameCase& c : box->cases) {
      if (c.kind != LoadKind::lifted) continue;
      ++lifts;
      const auto legs = legs_of(*box, c);
      Vec3 hook, aside;
      double up = 0;
      for (std::size_t i = 0; i < legs.size(); ++i) {
        up += legs[i].force.z;
        hook = hook + legs[i].force.z * points[i].at;
        aside = aside + Vec3{legs[i].force.x, legs[i].force.y, 0};
      }
      EXPECT_NEAR(norm(aside), 0, 1e-9 * up);
      // An M10 ring (DIN 580) of 45 mm across is 45 mm high above its seat.
      hook = (1 / up) * hook + (45 - 45 / 2.0 + height * diagonal / 2) * axis::z;
      for (const NodeLoad& leg : legs) {
        const Vec3 about = leg.moment + cross(box->model.frame.nodes[leg.node] - hook, leg.force);
        EXPECT_NEAR(norm(about), 0, 1e-6 * up) << angle;
      }
    }
    EXPECT_GE(lifts, 2U);
  }
}

TEST(Slings, StraightUpPullNothingToTheSide) {
  const auto box = front_box("0");
  for (const FrameCase& c : box->cases) {
    if (c.kind != LoadKind::lifted) continue;
    for (const NodeLoad& leg : legs_of(*box, c)) {
      EXPECT_EQ(std::hypot(leg.force.x, leg.force.y), 0);
      EXPECT_EQ(norm(leg.moment), 0);
    }
  }
}

// To the side a leg at 45 degrees pulls as much as it lifts: between two opposite points that carry alike, H = V.
TEST(Slings, At45DegreesALegPullsToTheSideAsMuchAsItLifts) {
  const auto box = front_box("45");
  std::size_t pairs = 0;
  for (const FrameCase& c : box->cases) {
    if (!c.words.starts_with("lifted on 2 legs")) continue;
    for (const NodeLoad& leg : legs_of(*box, c)) {
      if (leg.force.z < 1) continue;
      ++pairs;
      EXPECT_NEAR(std::hypot(leg.force.x, leg.force.y) / leg.force.z, 1, 0.1);
    }
  }
  EXPECT_GE(pairs, 4U);
}

}  // namespace
}  // namespace fitup::loads

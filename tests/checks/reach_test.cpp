// A nut beside a wall: which of its tools finds room. Sizes of the tools as the tables have them (common practice).
#include "checks/reach.h"

#include <gtest/gtest.h>

#include <cmath>

#include "checks/scene.h"
#include "checks/shapes.h"

namespace fitup::checks {
namespace {

using generated::along_z;
using generated::box;

Part solid_part(Role role, std::vector<Prism> prisms) {
  Part part;
  part.mark = "P";
  part.role = role;
  part.form = Solidform{std::move(prisms)};
  return part;
}

Loop hexagon(double flats) {
  std::vector<Vec2> corners;
  for (int i = 0; i < 6; ++i) {
    const double angle = M_PI / 3 * i;
    corners.push_back(flats / std::sqrt(3.0) * Vec2{std::cos(angle), std::sin(angle)});
  }
  return Loop::polygon(corners);
}

/// An M6 nut of 10 mm across flats on the floor, and what stands there when it is tightened.
std::vector<Finding> beside(std::vector<Prism> walls) {
  Plan plan;
  plan.parts.push_back(solid_part(Role::face_plate, std::move(walls)));
  plan.parts.push_back(solid_part(Role::nut, {{{hexagon(10), {}}, Pose{}, 5.2}}));
  plan.instances.resize(2);
  plan.instances[1].part = 1;
  plan.instances[0].name = "wall";
  plan.instances[1].name = "nut";
  plan.steps.resize(2);
  plan.steps[0].kind = StepKind::weld;
  plan.steps[0].adds = {0};
  plan.steps[1].kind = StepKind::fasten;
  plan.steps[1].adds = {1};
  const Scene scene(plan, {});
  return check_reach(scene, 1);
}

Prism wall(double from_x, double from_z, double to_z) {
  return along_z(box({from_x, -300}, {from_x + 10, 300}), from_z, to_z - from_z);
}

// A spanner's head is 2.1 x 10 + 1 = 22 mm across, a socket 1.3 x 10 + 1.5 = 14.5 mm, its ratchet's head 25 mm.
TEST(Reach, ANutFarFromTheWallIsTurned) {
  const auto findings = beside({wall(12.6, 0, 400)});
  ASSERT_EQ(findings.size(), 1U);
  EXPECT_EQ(findings[0].verdict, Verdict::pass) << findings[0].message;
}

TEST(Reach, TheRatchetsHeadNeedsRoomAllRound) {
  const auto findings = beside({wall(8, 0, 400)});
  ASSERT_EQ(findings.size(), 1U);
  EXPECT_EQ(findings[0].verdict, Verdict::fail) << findings[0].message;
  EXPECT_NEAR(findings[0].value.value_or(0), 3, 1e-3) << "the spanner's 11 mm are the least: " << findings[0].message;
}

// A socket of 25 mm puts the head over a wall that ends there.
TEST(Reach, ASocketPutsTheHeadOverALowWall) {
  EXPECT_EQ(beside({wall(8, 0, 25)}).front().verdict, Verdict::pass);
  EXPECT_EQ(beside({wall(8, 0, 25), wall(13, 0, 400)}).front().verdict, Verdict::pass);
  EXPECT_EQ(beside({wall(8, 0, 25), wall(12, 0, 400)}).front().verdict, Verdict::fail);
  EXPECT_EQ(beside({wall(8, 0, 25), wall(12, 60, 400)}).front().verdict, Verdict::pass) << "the head ends at 45 mm";
}

}  // namespace
}  // namespace fitup::checks

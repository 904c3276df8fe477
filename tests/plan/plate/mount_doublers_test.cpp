// Doublers under feet and lugs of a box of plates: where the sheet asks for one, how far it reaches, and what needs
// none. Entry: gtest.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>

#include "plan/framed/planned.h"

namespace fitup::test {
namespace {

constexpr double t = 4;

Planned with_feet(const char* legs, const char* feet, std::vector<Override> keys = {}) {
  keys.insert(keys.end(), {{"box.main.build", "plate"},
                           {"box.main.plates.thickness", "4 mm"},
                           {"box.main.frame.bottom_legs", legs},
                           {"box.main.clearance.top", "90 mm"},
                           {"box.main.face.bottom.closed_by", "plate"},
                           {"box.main.feet", feet}});
  return plan_demo({}, keys);
}

std::vector<const Instance*> under_mounts(const Plan& plan) {
  std::vector<const Instance*> found = instances_of(plan, Role::doubler);
  std::erase_if(found, [](const Instance* i) { return i->name.find("doubler under ") != 0; });
  std::erase_if(found, [](const Instance* i) { return i->name.find("lift") != std::string::npos; });
  return found;
}

bool are_welded(const Plan& plan, const Instance& a, const Instance& b) {
  return std::any_of(plan.joints.begin(), plan.joints.end(), [&](const Joint& j) {
    const Instance& first = plan.instances[j.a];
    const Instance& second = plan.instances[j.b];
    return j.kind == JointKind::weld && ((&first == &a && &second == &b) || (&first == &b && &second == &a));
  });
}

// A floor of 4 mm at the bottom, feet of 8 mm, more than half as thick again (common practice).
TEST(MountDoublers, OfAFootUnderAThinFloorReachBeyondItOnAllSidesButItsEdge) {
  const Planned p = with_feet("up", "{ thickness = 8, thread = \"M10\" }");
  ASSERT_TRUE(p.result.plan) << p.said();
  const Plan& plan = *p.result.plan;
  ASSERT_EQ(under_mounts(plan).size(), 4U);
  const Instance* floor = find_instance(plan, "floor");
  const Instance* foot = find_instance(plan, "foot 1");
  const Instance* doubler = find_instance(plan, "doubler under foot 1");
  ASSERT_TRUE(floor && foot && doubler);
  const Box3 box = box_of(plan, *doubler);
  const Box3 on = box_of(plan, *foot);
  EXPECT_NEAR(box.high.z, 0, 1e-9) << "on the floor's underside";
  EXPECT_NEAR(box.low.z, -t, 1e-9) << "as thick as the floor";
  EXPECT_NEAR(on.high.z, -t, 1e-9) << "the foot lies on it";
  EXPECT_NEAR(box.low.x, t, 1e-9) << "the box's edge stays free for a bead as high as it is thick";
  EXPECT_NEAR(box.high.x, on.high.x + 15, 1e-9);
  EXPECT_NEAR(box.low.y, on.low.y - 15, 1e-9);
  EXPECT_NEAR(box.high.y, on.high.y + 15, 1e-9);
  EXPECT_TRUE(are_welded(plan, *doubler, *floor));
  EXPECT_TRUE(are_welded(plan, *foot, *doubler));
  EXPECT_FALSE(are_welded(plan, *foot, *floor));
}

TEST(MountDoublers, AreNoneWhereTheSheetIsThickEnough) {
  const Planned p = with_feet("up", "{ thickness = 6, thread = \"M10\" }");
  ASSERT_TRUE(p.result.plan) << p.said();
  EXPECT_TRUE(under_mounts(*p.result.plan).empty());
  EXPECT_TRUE(
      are_welded(*p.result.plan, *find_instance(*p.result.plan, "foot 1"), *find_instance(*p.result.plan, "floor")));
}

// Legs down the walls go to the bottom and the floor lies above: feet stand under the edges of the walls, whatever
// their thickness, each welded to one that it crosses square.
TEST(MountDoublers, AreNoneUnderTheEdgesOfWalls) {
  const Planned p = with_feet("down", "{ thickness = 8, thread = \"M10\" }");
  ASSERT_TRUE(p.result.plan) << p.said();
  const Plan& plan = *p.result.plan;
  EXPECT_TRUE(under_mounts(plan).empty());
  for (const Instance* foot : instances_of(plan, Role::foot)) {
    const Box3 box = box_of(plan, *foot);
    const char* name = box.middle().x < 400 ? "left wall" : "right wall";
    const Instance* wall = find_instance(plan, name);
    ASSERT_NE(wall, nullptr);
    EXPECT_TRUE(are_welded(plan, *foot, *wall));
    EXPECT_NEAR(box_of(plan, *wall).low.z, box.high.z, 1e-9) << "the wall's edge lies on the foot";
  }
}

// Cleats of 8 mm stand against the side walls: their doublers are there, and the bolts as much farther out.
TEST(MountDoublers, OfCleatsLieOnTheSideWalls) {
  const Planned thin = with_feet("down", "{ kind = \"angle\", section = \"L 60x60x8\", thread = \"M10\" }");
  ASSERT_TRUE(thin.result.plan) << thin.said();
  const Plan& plan = *thin.result.plan;
  ASSERT_EQ(under_mounts(plan).size(), 4U);
  const Box3 box = box_of(plan, *find_instance(plan, "doubler under foot 1"));
  EXPECT_NEAR(box.low.x, -t, 1e-9);
  EXPECT_NEAR(box.high.x, 0, 1e-9);
  EXPECT_NEAR(box.low.z, t, 1e-9);
  EXPECT_NEAR(box.high.z, 60 + 15, 1e-9) << "a leg and what is beside it";
  EXPECT_NEAR(box_of(plan, *find_instance(plan, "foot 1")).high.x, -t, 1e-9);
  EXPECT_TRUE(are_welded(plan, *find_instance(plan, "doubler under foot 1"), *find_instance(plan, "left wall")));
}

TEST(MountDoublers, AreOfNoFramedBox) {
  const Planned p = plan_demo({}, {{"box.main.feet", "{ thickness = 12, thread = \"M10\" }"}});
  ASSERT_TRUE(p.result.plan) << p.said();
  EXPECT_TRUE(instances_of(*p.result.plan, Role::doubler).empty());
}

}  // namespace
}  // namespace fitup::test

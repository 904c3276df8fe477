// A box of plates on a ring of angle: the ring is the framed box's own, the plates begin at its deck.
// Entry: gtest.
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <set>

#include "fitup/seams.h"
#include "plan/framed/planned.h"

namespace fitup::test {
namespace {

Planned on_ring(const std::vector<std::pair<std::string, std::string>>& replacements = {},
                std::vector<Override> overrides = {}) {
  overrides.push_back({"box.main.build", "plate"});
  overrides.push_back({"box.main.plates.base_ring", "L 40x40x4"});
  return plan_demo(replacements, overrides);
}

const Part& part_of(const Plan& plan, const Instance& i) { return plan.parts[i.part]; }

InstanceId id_of(const Plan& plan, const std::string& name) {
  const Instance* i = find_instance(plan, name);
  return i == nullptr ? plan.instances.size() : static_cast<InstanceId>(i - plan.instances.data());
}

const Joint* joint_of(const Plan& plan, const std::string& a, const std::string& b) {
  for (const Joint& j : plan.joints) {
    if (j.a == id_of(plan, a) && j.b == id_of(plan, b)) return &j;
  }
  return nullptr;
}

TEST(BaseRing, LeavesTheSameSizeAndTheSamePlacesAsAFrame) {
  const Planned framed = plan_demo();
  const Planned ring = on_ring();
  ASSERT_TRUE(framed.result.plan && ring.result.plan) << ring.said();
  EXPECT_NEAR(norm(framed.result.plan->frame_size - ring.result.plan->frame_size), 0, 1e-9);
  for (const Instance* item : instances_of(*framed.result.plan, Role::item)) {
    const Instance* same = find_instance(*ring.result.plan, item->name);
    ASSERT_NE(same, nullptr) << item->name;
    EXPECT_NEAR(norm(same->pose.origin() - item->pose.origin()), 0, 1e-9) << item->name;
  }
}

class Corners : public testing::TestWithParam<const char*> {};
INSTANTIATE_TEST_SUITE_P(OfARing, Corners, testing::Values("coped", "butted", "mitred"));

// Lengths, end cuts and places, whatever the corners.
TEST_P(Corners, AreThoseOfTheFramedBoxesBottomRing) {
  const Planned framed = plan_demo({}, {{"box.main.frame.corners", GetParam()}});
  const Planned ring = on_ring({}, {{"box.main.frame.corners", GetParam()}});
  ASSERT_TRUE(framed.result.plan && ring.result.plan) << ring.said();
  std::size_t members = 0;
  for (const Instance* own : instances_of(*ring.result.plan, Role::ring_member)) {
    const Instance* other = find_instance(*framed.result.plan, own->name);
    ASSERT_NE(other, nullptr) << own->name;
    const auto& a = std::get<Member>(part_of(*ring.result.plan, *own).form);
    const auto& b = std::get<Member>(part_of(*framed.result.plan, *other).form);
    EXPECT_NEAR(a.length_mm, b.length_mm, 1e-9) << own->name;
    EXPECT_EQ(a.start, b.start) << own->name;
    EXPECT_EQ(a.end, b.end) << own->name;
    EXPECT_NEAR(norm(own->pose.origin() - other->pose.origin()), 0, 1e-9) << own->name;
    EXPECT_EQ(own->key, "box.main.plates.base_ring");
    ++members;
  }
  EXPECT_EQ(members, 4U);
}

// L 40x40x4 with legs down: the deck is 40 high. Walls and the back ring stand there, the front is open to it.
TEST(BaseRing, CarriesTheWallsOnItsLyingLegs) {
  const Planned p = on_ring();
  ASSERT_TRUE(p.result.plan) << p.said();
  const Plan& plan = *p.result.plan;
  for (const char* wall : {"left wall", "right wall", "back ring"})
    EXPECT_NEAR(box_of(plan, *find_instance(plan, wall)).low.z, 40, 1e-9) << wall;
  EXPECT_EQ(find_instance(plan, "floor"), nullptr);
  EXPECT_EQ(find_instance(plan, "front sill"), nullptr);
  for (const char* member : {"bottom ring member left", "bottom ring member front", "bottom ring member back"}) {
    const Joint* joint = joint_of(plan, "left wall", member);
    ASSERT_NE(joint, nullptr) << member;
    EXPECT_EQ(joint->kind, JointKind::weld);
    EXPECT_NEAR(norm(joint->normal - axis::minus_z), 0, 1e-12);
  }
  EXPECT_NE(joint_of(plan, "back ring", "bottom ring member back"), nullptr);
}

// From 20 mm inside the box's faces (4 of the leg, 4 sheets for what stands behind the screws) to 20 mm before the
// other; 4 mm off the toes' level; under each lying leg 40 deep 5 mm are off (4 of the leg, a gap of 1) over 21 mm. The
// two inner corners are relieved by half circles of a quarter of the sheet's thickness.
TEST(BaseRing, HasRibsThatReachOutUnderItsLegs) {
  const Planned p = on_ring();
  ASSERT_TRUE(p.result.plan) << p.said();
  const Plan& plan = *p.result.plan;
  const auto ribs = instances_of(plan, Role::rib);
  EXPECT_EQ(ribs.size(), 5U);
  const double depth = plan.frame_size.y;
  for (const Instance* rib : ribs) {
    const Box3 box = box_of(plan, *rib);
    EXPECT_NEAR(box.low.y, 20, 1e-9);
    EXPECT_NEAR(box.high.y, depth - 20, 1e-9);
    EXPECT_NEAR(box.low.z, 4, 1e-9);
    EXPECT_NEAR(box.high.z, 40, 1e-9);
    const double relief = std::numbers::pi;  // of both: half a circle of radius 1 each
    const double area = (depth - 40) * 36 - 2 * 21 * 5 - relief;
    EXPECT_NEAR(std::get<Flat>(part_of(plan, *rib).form).profile.area_mm2(), area, 1e-6);
    EXPECT_NE(joint_of(plan, rib->name, "bottom ring member front"), nullptr);
    EXPECT_NE(joint_of(plan, rib->name, "bottom ring member back"), nullptr);
  }
}

// Inside, a fillet as thick as the wall, from cope gap to cope gap over the side member's lying leg: 518 less twice
// 40 + 1; outside a cap along the flush edges.
TEST(BaseRing, IsWeldedToItsWallsInsideAndOutside) {
  const Planned p = on_ring();
  ASSERT_TRUE(p.result.plan) << p.said();
  const Plan& plan = *p.result.plan;
  const Seams seams = seams_of(plan);
  double inside = 0, outside = 0;
  for (const Seam& seam : seams.all) {
    const Joint& joint = plan.joints[seam.joint];
    if (joint.a != id_of(plan, "left wall") || joint.b != id_of(plan, "bottom ring member left")) continue;
    if (seam.state == SeamState::left_free) continue;
    EXPECT_NEAR(seam.from.z, 40, 0.01);
    (seam.from.x > 2 ? inside : outside) += norm(seam.to - seam.from);
    if (seam.from.x > 2) {
      EXPECT_EQ(seam.kind, SeamKind::fillet);
      EXPECT_NEAR(seam.size_mm, 4, 1e-9);
    }
  }
  EXPECT_NEAR(inside, plan.frame_size.y - 2 * 41, 1);
  EXPECT_GT(outside, 300);
}

TEST(BaseRing, StandsThereBeforeThePlatesAreSetUp) {
  const Planned p = on_ring();
  ASSERT_TRUE(p.result.plan) << p.said();
  const Plan& plan = *p.result.plan;
  std::set<InstanceId> set_up;
  for (const fitup::SetUp& set : plan.set_up) set_up.insert(set.part);
  for (InstanceId i = 0; i < plan.instances.size(); ++i) {
    const Role role = part_of(plan, plan.instances[i]).role;
    EXPECT_EQ(set_up.contains(i), role == Role::wall || role == Role::rib) << plan.instances[i].name;
  }
}

struct RefusedCase {
  const char* key;
  const char* value;
  const char* says;
};
class Refused : public testing::TestWithParam<RefusedCase> {};
INSTANTIATE_TEST_SUITE_P(Rings, Refused,
                         testing::Values(RefusedCase{"box.main.plates.base_ring", "square tube 40x40x3", "lying legs of angles"},
                                         RefusedCase{"box.main.frame.bottom_legs", "up", "take the walls' place"}));

TEST_P(Refused, SayWhy) {
  std::vector<Override> overrides{{"box.main.build", "plate"}, {"box.main.plates.base_ring", "L 40x40x4"}};
  std::erase_if(overrides, [](const Override& o) { return o.key == GetParam().key; });
  overrides.push_back({GetParam().key, GetParam().value});
  const Planned p = plan_demo({}, overrides);
  EXPECT_FALSE(p.result.plan);
  EXPECT_NE(p.said().find(GetParam().says), std::string::npos) << p.said();
}

}  // namespace
}  // namespace fitup::test

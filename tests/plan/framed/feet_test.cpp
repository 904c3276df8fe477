// Feet and lugs: how many, where their holes are, what they are welded to.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "plan/framed/planned.h"

namespace fitup {
namespace {

using test::box_of;
using test::find_instance;
using test::instances_of;
using test::plan_demo;
using test::Planned;

Planned with_feet(const std::string& keys) {
  return plan_demo({{"[lifting]", "[box.main.feet]\n" + keys + "\n[lifting]"}});
}

/// Middle and diameter of the one round hole of a plate, in the world.
struct Hole {
  Vec3 at;
  double diameter = 0;
};
Hole hole_of(const Plan& plan, const Instance& instance) {
  const auto& flat = std::get<Flat>(plan.parts[instance.part].form);
  if (flat.profile.holes.size() != 1) return {};
  const auto circle = flat.profile.holes[0].as_circle();
  if (!circle) return {};
  return {instance.pose.point({circle->centre.x, circle->centre.y, 0}), 2 * circle->radius};
}

// ISO 273: 9 (medium) for M8, 10.5, 11 and 12 (fine, medium, coarse) for M10.
TEST(Feet, have_holes_of_the_class_that_is_asked_for) {
  for (const auto& [keys, diameter] :
       {std::pair{"thread = \"M8\"", 9.0}, std::pair{"thread = \"M10\"\nclearance_hole = \"close\"", 10.5},
        std::pair{"thread = \"M10\"", 11.0}, std::pair{"thread = \"M10\"\nclearance_hole = \"loose\"", 12.0}}) {
    const Planned p = with_feet(keys);
    ASSERT_TRUE(p.result.plan) << p.said();
    const auto feet = instances_of(*p.result.plan, Role::foot);
    ASSERT_EQ(feet.size(), 4U);
    for (const Instance* foot : feet) EXPECT_NEAR(hole_of(*p.result.plan, *foot).diameter, diameter, 1e-9) << keys;
  }
}

// The socket for an M8 nut of 13 is 1.3 x 13 + 1.5 = 18.4 wide; the front cover's flange with its gap stands out 4, its
// screws' heads of M4 at most 2.2 more (ISO 7380-1), the side plates 2.
TEST(Feet, by_rule_are_alike_and_their_nuts_can_be_reached) {
  const Planned p = with_feet("thread = \"M8\"");
  ASSERT_TRUE(p.result.plan) << p.said();
  const Plan& plan = *p.result.plan;
  const auto feet = instances_of(plan, Role::foot);
  ASSERT_EQ(feet.size(), 4U);
  for (const Instance* foot : feet) {
    EXPECT_EQ(plan.parts[foot->part].mark, "FOT01");
    const Vec3 at = hole_of(plan, *foot).at;
    const double beyond = std::max(-at.x, at.x - 984);
    EXPECT_GE(beyond, 4 + 18.4 / 2) << foot->name;
    EXPECT_NEAR(box_of(plan, *foot).high.z, 0, 1e-9) << "under the ring";
    EXPECT_NEAR(box_of(plan, *foot).low.z, -6, 1e-9);
  }
}

const std::vector<std::pair<std::string, std::string>> flat_at_the_sides{
    {R"(left  = { closed_by = "plate", thickness = 2 })",
     R"(left  = { closed_by = "cover", style = "flat", thickness = 2 })"},
    {R"(right = { closed_by = "plate", thickness = 2 })",
     R"(right = { closed_by = "cover", style = "flat", thickness = 2 })"},
    {"[lifting]", "[box.main.feet]\n[lifting]"}};

// A flat cover, 2 mm of sheet on the frame, comes straight off past the nuts: 10 mm beside their socket (common
// practice).
TEST(Feet, by_rule_leave_a_flat_cover_room_to_come_off) {
  const Planned p = plan_demo(flat_at_the_sides);
  ASSERT_TRUE(p.result.plan) << p.said();
  const auto feet = instances_of(*p.result.plan, Role::foot);
  ASSERT_EQ(feet.size(), 4U);
  for (const Instance* foot : feet) {
    const Vec3 at = hole_of(*p.result.plan, *foot).at;
    EXPECT_GE(std::max(-at.x, at.x - 984), 2 + 10 + 18.4 / 2) << foot->name;
  }
}

TEST(Feet, by_rule_stand_where_no_flat_cover_comes_off) {
  std::vector<std::pair<std::string, std::string>> all = flat_at_the_sides;
  all.push_back(
      {R"(closed_by = "cover", style = "flanged", thickness = 2, screws = { thread = "M4", max_spacing = 90 })",
       R"(closed_by = "open")"});
  all.push_back({R"(closed_by = "cover", style = "flat", thickness = 2, screws = { thread = "M4", max_spacing = 120 })",
                 R"(closed_by = "open")"});
  all.push_back({R"(front = "bolted", back = "welded", screw = "M4")", R"(front = "none", back = "none")"});
  const Planned p = plan_demo(all);
  ASSERT_TRUE(p.result.plan) << p.said();
  const auto feet = instances_of(*p.result.plan, Role::foot);
  ASSERT_EQ(feet.size(), 4U);
  for (const Instance* foot : feet) {
    const Vec3 at = hole_of(*p.result.plan, *foot).at;
    EXPECT_TRUE(at.y < 0 || at.y > 518) << foot->name;
  }
}

TEST(Feet, stand_where_the_vehicle_has_its_holes) {
  const Planned p = with_feet("at = [[-30, 60], [1014, 450], [492, 560]]");
  ASSERT_TRUE(p.result.plan) << p.said();
  const auto feet = instances_of(*p.result.plan, Role::foot);
  ASSERT_EQ(feet.size(), 3U);
  const std::vector<Vec3> wanted{{-30, 60, 0}, {1014, 450, 0}, {492, 560, 0}};
  for (std::size_t i = 0; i < wanted.size(); ++i) {
    const Vec3 at = hole_of(*p.result.plan, *feet[i]).at;
    EXPECT_NEAR(at.x, wanted[i].x, 1e-9);
    EXPECT_NEAR(at.y, wanted[i].y, 1e-9);
  }
}

TEST(Feet, are_welded_to_what_they_lie_on) {
  for (const char* keys : {"thread = \"M8\"", "kind = \"angle\"", "out = \"front back\""}) {
    const Planned p = with_feet(keys);
    ASSERT_TRUE(p.result.plan) << p.said();
    const Plan& plan = *p.result.plan;
    for (const Instance* foot : instances_of(plan, Role::foot)) {
      const auto id = static_cast<InstanceId>(foot - plan.instances.data());
      const auto welds = std::count_if(plan.joints.begin(), plan.joints.end(), [&](const Joint& j) {
        return (j.a == id || j.b == id) && j.kind == JointKind::weld;
      });
      EXPECT_GE(welds, 1) << keys << " " << foot->name;
    }
  }
}

TEST(Feet, of_angle_stand_level_with_the_ring_and_have_their_hole_beyond_the_root) {
  const Planned p = with_feet("kind = \"angle\"");
  ASSERT_TRUE(p.result.plan) << p.said();
  const Plan& plan = *p.result.plan;
  for (const Instance* foot : instances_of(plan, Role::foot)) {
    EXPECT_NEAR(box_of(plan, *foot).low.z, 0, 1e-9);
    const auto& cleat = std::get<Member>(plan.parts[foot->part].form);
    ASSERT_EQ(cleat.holes.size(), 1U);
    // L 50x50x5: root radius 7 (EN 10056-1).
    EXPECT_GE(cleat.holes[0].across_mm - 9.0 / 2, 5 + 7);
    EXPECT_NEAR(cleat.holes[0].along_mm, 25, 1e-9) << "in the middle";
  }
}

TEST(Feet, a_slot_is_as_wide_as_the_hole_and_longer_by_what_the_bolt_may_move) {
  const Planned p = with_feet("slot = 20\nwidth = 60");
  ASSERT_TRUE(p.result.plan) << p.said();
  const Plan& plan = *p.result.plan;
  for (const Instance* foot : instances_of(plan, Role::foot)) {
    const auto& holes = std::get<Flat>(plan.parts[foot->part].form).profile.holes;
    ASSERT_EQ(holes.size(), 1U);
    const Vec2 size = holes[0].bounds().size();
    EXPECT_NEAR(std::min(size.x, size.y), 9, 1e-9);
    EXPECT_NEAR(std::max(size.x, size.y), 9 + 20, 1e-9);
    // Two half circles and a rectangle.
    EXPECT_NEAR(holes[0].area_mm2(), 20 * 9 + std::acos(-1.0) * 4.5 * 4.5, 1e-6);
  }
}

// A cleat runs along its side, and so does its slot; a pattern knows how far the bolt may be moved.
TEST(Feet, of_angle_have_slots_along_the_side_too) {
  const Planned p = with_feet("kind = \"angle\"\nslot = 20\nwidth = 60\nout = \"left right\"");
  ASSERT_TRUE(p.result.plan) << p.said();
  const Plan& plan = *p.result.plan;
  const auto feet = instances_of(plan, Role::foot);
  ASSERT_EQ(feet.size(), 4U);
  for (const Instance* foot : feet) {
    const auto& cleat = std::get<Member>(plan.parts[foot->part].form);
    ASSERT_EQ(cleat.holes.size(), 1U);
    EXPECT_NEAR(cleat.holes[0].diameter_mm, 9, 1e-9);  // M8, ISO 273 medium
    EXPECT_NEAR(cleat.holes[0].slot_mm, 20, 1e-9);
    EXPECT_NEAR(cleat.holes[0].along_mm, 30, 1e-9) << "in the middle";
    EXPECT_NEAR(std::abs(dot(foot->pose.z(), axis::y)), 1, 1e-9);
  }
  const auto pattern = std::find_if(plan.patterns.begin(), plan.patterns.end(),
                                    [](const Pattern& one) { return one.name == "bolts of each foot"; });
  ASSERT_NE(pattern, plan.patterns.end());
  for (const PatternBody& body : pattern->bodies) {
    for (const PatternHole& hole : body.holes) EXPECT_NEAR(hole.slot_mm, 20, 1e-9);
  }
}

// Two surfaces of 0.1 each take 0.2 of a slot's width as of a hole's.
TEST(Feet, a_slot_is_wider_by_the_coat) {
  const Planned p = with_feet("slot = 20\nwidth = 60\n[finish]\nkind = \"zinc\"\nthickness = 0.1");
  ASSERT_TRUE(p.result.plan) << p.said();
  const Plan& plan = *p.result.plan;
  for (const Instance* foot : instances_of(plan, Role::foot)) {
    const Vec2 size = std::get<Flat>(plan.parts[foot->part].form).profile.holes.at(0).bounds().size();
    EXPECT_NEAR(std::min(size.x, size.y), 9.2, 1e-9);
    EXPECT_NEAR(std::max(size.x, size.y), 29.2, 1e-9);
  }
}

TEST(Lugs, stand_out_beside_the_back_plate_and_are_welded_to_it) {
  const Planned p = plan_demo({{"{ closed_by = \"cover\", style = \"flat\", thickness = 2, screws = { thread = \"M4\", "
                                "max_spacing = 120 } }",
                                "{ closed_by = \"plate\", thickness = 2, lugs = { thread = \"M8\" } }"},
                               {"back = \"welded\"", "back = \"none\""}});
  ASSERT_TRUE(p.result.plan) << p.said();
  const Plan& plan = *p.result.plan;
  const auto lugs = instances_of(plan, Role::lug);
  ASSERT_EQ(lugs.size(), 4U);
  for (const Instance* lug : lugs) {
    EXPECT_EQ(plan.parts[lug->part].mark, "LUG01");
    EXPECT_NEAR(box_of(plan, *lug).low.y, 518 + 2, 1e-9) << "on the back plate";
    const Vec3 at = hole_of(plan, *lug).at;
    EXPECT_TRUE(at.x < 0 || at.x > 984);
  }
}

TEST(Feet, in_the_opposite_hand_are_on_the_other_side) {
  const std::string base = plan_demo().read.sources[0].text + "\n[box.main.feet]\nat = [[-30, 60], [492, 560]]\n";
  const auto files = [&](const std::string&) -> Result<std::string> { return base; };
  const SpecResult read = read_spec("box.toml", "start_from = \"a.toml\"\nopposite_hand = \"left-right\"\n", {}, files);
  ASSERT_TRUE(read.spec);
  const auto plan = make_plan(lay_out(*read.spec)).plan;
  ASSERT_TRUE(plan);
  const auto feet = instances_of(*plan, Role::foot);
  ASSERT_EQ(feet.size(), 2U);
  EXPECT_NEAR(hole_of(*plan, *feet[0]).at.x, 984 + 30, 1e-9);
  EXPECT_NEAR(hole_of(*plan, *feet[1]).at.x, 984 - 492, 1e-9);
  EXPECT_NEAR(hole_of(*plan, *feet[1]).at.y, 560, 1e-9);
}

}  // namespace
}  // namespace fitup

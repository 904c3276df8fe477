// A floor that is a tray: its flat pattern, what it is welded to, and what keeps off its bends.
// Entry: gtest.
#include "plan/plate/tray.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <set>

#include "plan/framed/planned.h"

namespace fitup::test {
namespace {

Planned on_tray(const std::vector<std::pair<std::string, std::string>>& replacements = {},
                std::vector<Override> overrides = {}, const std::string& beside = "12") {
  overrides.insert(overrides.begin(), {{"box.main.build", "plate"},
                                       {"box.main.plates.floor", "tray"},
                                       {"box.main.clearance.left", beside},
                                       {"box.main.clearance.right", beside},
                                       {"box.main.clearance.top", "72"}});
  return plan_demo(replacements, overrides);
}

const Part& part_of(const Plan& plan, const Instance& i) { return plan.parts[i.part]; }
const Flat& flat_of(const Plan& plan, const std::string& name) {
  return std::get<Flat>(part_of(plan, *find_instance(plan, name)).form);
}

std::set<std::string> welded_to(const Plan& plan, const std::string& name) {
  std::set<std::string> out;
  for (const Joint& j : plan.joints) {
    if (j.kind != JointKind::weld) continue;
    const std::string& a = plan.instances[j.a].name;
    const std::string& b = plan.instances[j.b].name;
    if (a == name) out.insert(b);
    if (b == name) out.insert(a);
  }
  return out;
}

// What is walls' and rings', not rails'.
std::set<std::string> without_rails(std::set<std::string> names) {
  std::erase_if(names, [](const std::string& name) { return name.find("rail") != std::string::npos; });
  return names;
}

// Sheet of 4 in a box of 992 x 518, edges 40 high, inside radius 4: v of DIN 6935 for r = s is 1.92 s (Tabellenbuch
// Metall, from memory: 1.9 for r = s = 1), 2 (r + s) less pi / 2 (r + k s) with k = 0.325.
TEST(Tray, has_the_flat_size_of_its_sides_less_the_compensation_of_each_bend) {
  const Planned p = on_tray();
  ASSERT_TRUE(p.result.plan) << p.said();
  const Flat& tray = flat_of(*p.result.plan, "tray");
  const double v = 16 - std::numbers::pi / 2 * (4 + 0.325 * 4);
  EXPECT_NEAR(v, 4 * 1.9, 0.1);
  const Vec2 size = tray.profile.bounds().size();
  EXPECT_NEAR(size.x, 40 + (992 - 2 * 4) + 40 - 2 * v, 1e-9);
  EXPECT_NEAR(size.y, 40 + 518 + 40 - 2 * v, 1e-9);
  ASSERT_EQ(tray.bends.size(), 4U);
  for (const Bend& bend : tray.bends) {
    EXPECT_TRUE(bend.up);
    EXPECT_DOUBLE_EQ(bend.radius_mm, 4);
  }
}

TEST(Tray, takes_a_stated_radius_and_k_factor) {
  const Planned p = on_tray({}, {{"box.main.plates.bend.radius", "6"}, {"box.main.plates.bend.k", "0.4"}}, "14");
  ASSERT_TRUE(p.result.plan) << p.said();
  const Vec2 size = flat_of(*p.result.plan, "tray").profile.bounds().size();
  EXPECT_NEAR(size.y, 2 * 40 + 518 - 2 * (2 * (6 + 4) - std::numbers::pi / 2 * (6 + 0.4 * 4)), 1e-9);
}

// A bend's pattern is its neutral axis long, its body as long as the middle of the sheet: pi / 2 (1/2 - k) t longer.
TEST(Tray, has_its_patterns_volume_and_what_each_bend_adds) {
  const Planned p = on_tray();
  ASSERT_TRUE(p.result.plan) << p.said();
  const Part& part = part_of(*p.result.plan, *find_instance(*p.result.plan, "tray"));
  const Flat& tray = std::get<Flat>(part.form);
  double in_bends = 0;
  for (const Bend& bend : tray.bends)
    in_bends += norm(bend.to - bend.from) * 4 * std::numbers::pi / 2 * (0.5 - 0.325) * 4;
  double area = tray.profile.outer.area_mm2();
  for (const Loop& hole : tray.profile.holes) area -= hole.area_mm2();
  for (const DrilledHole& d : tray.drilled) area -= std::numbers::pi / 4 * d.diameter_mm * d.diameter_mm;
  EXPECT_NEAR(volume_mm3(part), 4 * area + in_bends, 1e-6 * 4 * area);
}

// The body fills the box behind the walls: no edge stands short or over.
TEST(Tray, stands_between_the_walls_and_flush_with_faces_that_covers_close) {
  const Planned p = on_tray();
  ASSERT_TRUE(p.result.plan) << p.said();
  const Plan& plan = *p.result.plan;
  const Box3 box = box_of(plan, *find_instance(plan, "tray"));
  EXPECT_NEAR(norm(box.low - Vec3{4, 0, 0}), 0, 1e-9);
  EXPECT_NEAR(norm(box.high - Vec3{988, 518, 40}), 0, 1e-9);
  EXPECT_EQ(find_instance(plan, "front sill"), nullptr);
  EXPECT_EQ(without_rails(welded_to(plan, "tray")), (std::set<std::string>{"left wall", "right wall", "back ring"}));
  EXPECT_NEAR(box_of(plan, *find_instance(plan, "left wall")).low.z, 0, 1e-9);
  EXPECT_NEAR(box_of(plan, *find_instance(plan, "back ring")).low.z, 40, 1e-9);
}

TEST(Tray, stands_behind_a_wall_that_closes_the_back) {
  const Planned p = on_tray({{"back  = { closed_by = \"cover\", style = \"flat\", thickness = 2, screws = { thread = "
                              "\"M4\", max_spacing = 120 } }",
                              "back  = { closed_by = \"plate\" }"},
                             {"back = \"welded\", screw", "back = \"none\", screw"}});
  ASSERT_TRUE(p.result.plan) << p.said();
  const Plan& plan = *p.result.plan;
  EXPECT_NEAR(box_of(plan, *find_instance(plan, "tray")).high.y, 518 - 4, 1e-9);
  EXPECT_NEAR(box_of(plan, *find_instance(plan, "back wall")).low.z, 0, 1e-9);
  EXPECT_TRUE(welded_to(plan, "tray").contains("back wall"));
}

// 2 t + r from the edge's outside: a bead as large as the sheet ends before the bend.
TEST(Tray, has_its_rails_clear_of_the_inside_of_its_bends) {
  const Planned p = on_tray();
  ASSERT_TRUE(p.result.plan) << p.said();
  const Plan& plan = *p.result.plan;
  const auto rails = instances_of(plan, Role::rail);
  ASSERT_FALSE(rails.empty());
  for (const Instance* rail : rails) {
    const Box3 box = box_of(plan, *rail);
    EXPECT_NEAR(box.low.z, 4, 1e-9);
    EXPECT_GE(box.low.x, 4 + 12 - 1e-9) << rail->name;
    EXPECT_LE(box.high.x, 992 - 16 + 1e-9) << rail->name;
    EXPECT_GE(box.low.y, 12 - 1e-9) << rail->name;
    EXPECT_LE(box.high.y, 518 - 12 + 1e-9) << rail->name;
  }
}

// Corners: from edge to edge nothing is nearer to two bends than the relief, and the front's edge reaches both walls.
TEST(Tray, has_its_bends_between_reliefs_and_whole_edges_at_the_front) {
  const Planned p = on_tray();
  ASSERT_TRUE(p.result.plan) << p.said();
  const Flat& tray = flat_of(*p.result.plan, "tray");
  const double width = 992 - 2 * 4;
  EXPECT_NEAR(norm(tray.bends[0].to - tray.bends[0].from), width - 2 * (4 + 4 + 4), 1e-9);
  EXPECT_NEAR(norm(tray.bends[1].to - tray.bends[1].from), 518 - 2 * (4 + 4 + 4), 1e-9);
  double front = 1e9;
  for (const Vertex& v : tray.profile.outer.vertices) front = std::min(front, v.at.y);
  std::set<double> ends;
  for (const Vertex& v : tray.profile.outer.vertices) {
    if (v.at.y < front + 1e-9) ends.insert(v.at.x);
  }
  ASSERT_EQ(ends.size(), 2U);
  EXPECT_NEAR(*ends.rbegin() - *ends.begin(), width, 1e-9);
}

struct RadiusRow {
  double thickness_mm;
  double radius_mm;
};
class LeastRadius : public testing::TestWithParam<RadiusRow> {};
// EN 1993-1-8:2005, table 4.2, the column where fatigue predominates.
INSTANTIATE_TEST_SUITE_P(OfATray, LeastRadius,
                         testing::Values(RadiusRow{3, 3}, RadiusRow{4, 4}, RadiusRow{5, 7.5}, RadiusRow{8, 12},
                                         RadiusRow{10, 20}, RadiusRow{12, 36}));
TEST_P(LeastRadius, LetsASeamBeLaidBesideTheBend) {
  const auto radius = plan::plate::least_radius_mm(GetParam().thickness_mm);
  ASSERT_TRUE(radius);
  EXPECT_DOUBLE_EQ(*radius, GetParam().radius_mm);
}
TEST(LeastRadius, IsThereForNoThickerSheet) { EXPECT_FALSE(plan::plate::least_radius_mm(12.5)); }

// 0.7 of the die's opening of 8 t is 22.4 at t = 4; the M4 row of the back needs 8 + 8 + 2.4 * 4.5 = 26.8.
TEST(Tray, says_how_high_its_edges_must_stand) {
  const Planned low = on_tray({}, {{"box.main.plates.tray_depth", "26"}});
  EXPECT_FALSE(low.result.plan);
  EXPECT_NE(low.said().find("26.8 mm"), std::string::npos) << low.said();
  EXPECT_TRUE(on_tray({}, {{"box.main.plates.tray_depth", "26.8"}}).result.plan);
}

}  // namespace
}  // namespace fitup::test

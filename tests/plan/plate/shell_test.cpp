// The boxes of the examples built from plates: what they are made of, and that the same stands in the same inside.
// Entry: gtest.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "plan/framed/planned.h"

namespace fitup::test {
namespace {

Planned plate_demo(const std::vector<std::pair<std::string, std::string>>& replacements = {},
                   std::vector<Override> overrides = {}) {
  overrides.push_back({"box.main.build", "plate"});
  return plan_demo(replacements, overrides);
}

const Part& part_of(const Plan& plan, const Instance& i) { return plan.parts[i.part]; }

// What the items stand free of, in each direction: to the next thing of the frame that they would meet.
std::array<double, 5> free_round_items(const Plan& plan) {
  Box3 items;
  for (const Instance* i : instances_of(plan, Role::item)) items.add(box_of(plan, *i));
  std::array<double, 5> free{1e9, 1e9, 1e9, 1e9, 1e9};
  for (const Instance& i : plan.instances) {
    const Role role = part_of(plan, i).role;
    const bool of_frame = role == Role::ring_member || role == Role::upright || role == Role::wall;
    if (!of_frame) continue;
    const Box3 box = box_of(plan, i);
    const bool end = box.size().y < 60;   // a member or plate of the front or the back
    const bool side = box.size().x < 60;  // of a side
    const bool above = box.high.z > plan.frame_size.z - 1 && box.size().z < 60;
    const Vec3 m = box.middle();
    const Vec3 of_items = items.middle();
    if (side && !end)
      (m.x < of_items.x ? free[0] : free[1]) =
          std::min(m.x < of_items.x ? free[0] : free[1],
                   m.x < of_items.x ? items.low.x - (box.low.x + 4) : box.high.x - 4 - items.high.x);
    if (end && !side)
      (m.y < of_items.y ? free[2] : free[3]) =
          std::min(m.y < of_items.y ? free[2] : free[3],
                   m.y < of_items.y ? items.low.y - (box.low.y + 4) : box.high.y - 4 - items.high.y);
    if (above) free[4] = std::min(free[4], box.high.z - 4 - items.high.z);
  }
  return free;
}

TEST(PlateDemo, IsPlannedByOneKey) {
  const Planned p = plate_demo();
  ASSERT_TRUE(p.result.plan) << p.said();
}

// The clearances of the demo's spec, in walls of 4 mm and in angles of 4 mm.
TEST(PlateDemo, LeavesTheSameInsideAsTheFramedOne) {
  const Planned framed = plan_demo();
  const Planned plates = plate_demo();
  ASSERT_TRUE(framed.result.plan && plates.result.plan) << plates.said();
  EXPECT_NEAR(norm(framed.result.plan->frame_size - plates.result.plan->frame_size), 0, 1e-9);
  const std::array<double, 5> asked{8, 8, 44, 36, 60};
  const auto a = free_round_items(*framed.result.plan);
  const auto b = free_round_items(*plates.result.plan);
  for (std::size_t i = 0; i < asked.size(); ++i) {
    EXPECT_NEAR(a[i], asked[i], 1e-6) << i;
    EXPECT_NEAR(b[i], asked[i], 1e-6) << i;
  }
}

TEST(PlateDemo, SawsNothingButRoundBosses) {
  const Planned p = plate_demo();
  ASSERT_TRUE(p.result.plan) << p.said();
  for (const Part& part : p.result.plan->parts) {
    EXPECT_FALSE(std::holds_alternative<Member>(part.form)) << part.name;
    if (part.source == Source::sawn) {
      EXPECT_EQ(part.role, Role::boss) << part.name;
    }
  }
}

// Volume is profile area by thickness, less what is drilled afterwards.
TEST(PlateDemo, HasFlatPartsOfTheirProfilesVolume) {
  const Planned p = plate_demo();
  ASSERT_TRUE(p.result.plan) << p.said();
  for (const Part& part : p.result.plan->parts) {
    const auto* flat = std::get_if<Flat>(&part.form);
    if (flat == nullptr) continue;
    double drilled = 0;
    for (const DrilledHole& hole : flat->drilled) drilled += std::acos(-1.0) / 4 * hole.diameter_mm * hole.diameter_mm;
    const double expected = (flat->profile.area_mm2() - drilled) * flat->thickness_mm;
    EXPECT_NEAR(volume_mm3(part) / expected, 1, 1e-9) << part.name;
    EXPECT_FALSE(flaw_in(flat->profile)) << part.name;
  }
}

TEST(PlateDemo, SetsUpEachWallAndRibOnceAndTheWallsOverAllElse) {
  const Planned p = plate_demo();
  ASSERT_TRUE(p.result.plan) << p.said();
  const Plan& plan = *p.result.plan;
  std::set<InstanceId> seen;
  for (const fitup::SetUp& set : plan.set_up) {
    EXPECT_TRUE(seen.insert(set.part).second);
    EXPECT_NEAR(norm(set.way), 1, 1e-12);
  }
  for (InstanceId i = 0; i < plan.instances.size(); ++i) {
    const Role role = part_of(plan, plan.instances[i]).role;
    EXPECT_EQ(seen.contains(i), role == Role::wall || role == Role::rib) << plan.instances[i].name;
  }
  EXPECT_EQ(plan.instances[plan.set_up.front().part].name, "floor");
  EXPECT_EQ(plan.instances[plan.set_up.back().part].name, "right wall");
}

// Five of seven rails: the outer two lie on the floor's border.
TEST(PlateDemo, HasARibUnderEachRailThatLiesFree) {
  const Planned p = plate_demo();
  ASSERT_TRUE(p.result.plan) << p.said();
  const auto rails = instances_of(*p.result.plan, Role::rail);
  EXPECT_EQ(rails.size(), 7U);
  const auto ribs = instances_of(*p.result.plan, Role::rib);
  EXPECT_EQ(ribs.size(), 5U);
  for (const Instance* rib : ribs) {
    const double middle = box_of(*p.result.plan, *rib).middle().x;
    EXPECT_TRUE(std::any_of(rails.begin(), rails.end(), [&](const Instance* rail) {
      return std::abs(box_of(*p.result.plan, *rail).middle().x - middle) < 1e-6;
    }));
  }
}

// Heads of M6 are 10.5 mm wide (ISO 7380-1): half of that, half of the rib and 2 mm of play (common practice).
TEST(PlateBox, HasItsRibsBesideTheScrewsThatHoldItemsFromBelow) {
  const Planned p = test::plan_text(
      "fitup = 1\nunits = \"mm\"\n[item.pack]\nsize = [210, 260, 180]\nmass = 14\n"
      "mounts = { face = \"bottom\", at = [[20, 20], [190, 20], [20, 240], [190, 240]], depth = 12 }\n"
      "[box.main]\nbuild = \"plate\"\nrow = [{ of = \"pack\", count = 2, gap = 10 }]\n"
      "clearance = { left = 60, right = 60, front = 40, back = 30, top = 50 }\n");
  ASSERT_TRUE(p.result.plan) << p.said();
  const auto ribs = instances_of(*p.result.plan, Role::rib);
  ASSERT_EQ(ribs.size(), 3U);
  int beside = 0;
  for (const Instance* rib : ribs) {
    const double middle = box_of(*p.result.plan, *rib).middle().x;
    for (const Instance& screw : p.result.plan->instances) {
      if (screw.name.find("mount screw") == std::string::npos) continue;
      const double off = std::abs(screw.pose.origin().x - middle);
      EXPECT_GE(off, 10.5 / 2 + 4.0 / 2 + 2 - 1e-6) << rib->name << ", " << screw.name;
      if (off < 10.5 / 2 + 4.0 / 2 + 2 + 1e-6) ++beside;
    }
  }
  EXPECT_GT(beside, 0);
}

struct TabsCase {
  const char* word;
  double ends_at_x_mm;  // of the floor's tabs, through the left wall of 4 mm: its outer face is at 0
};
class TabsOf : public testing::TestWithParam<TabsCase> {};
INSTANTIATE_TEST_SUITE_P(ByWord, TabsOf,
                         testing::Values(TabsCase{"short", 4.0 / 3}, TabsCase{"flush", 0},
                                         TabsCase{"proud", -4.0 / 3}));

TEST_P(TabsOf, ComeOutAsFarAsIsSaid) {
  const Planned p = plate_demo({}, {{"box.main.plates.tabs", GetParam().word}});
  ASSERT_TRUE(p.result.plan) << p.said();
  EXPECT_NEAR(box_of(*p.result.plan, *find_instance(*p.result.plan, "floor")).low.x, GetParam().ends_at_x_mm, 1e-6);
}

TEST(PlateBox, OfAluminiumIsBuiltAndAFramedOneIsNot) {
  const std::pair<std::string, std::string> aluminium{"uprights = \"40x4\"",
                                                      "uprights = \"40x4\", material = \"5083-H111\""};
  EXPECT_NE(plan_demo({aluminium}).said().find("[not-a-steel]"), std::string::npos);
  // A thread in aluminium is two diameters deep: rivet nuts hold in 4 mm.
  const Planned tapped = plate_demo({aluminium}, {{"box.main.face.front.screws.fixing", "tapped"}});
  EXPECT_NE(tapped.said().find("[thread-too-short]"), std::string::npos) << tapped.said();
}

// Without a frame's section the plates are 4 thick and their borders 40 wide, of an inch shop 3/16 in and 1 1/2 in.
TEST(PlateBox, DoesWithoutASection) {
  const auto top_of = [](const std::string& units, const std::string& size, const std::string& clear) {
    const test::Planned p = test::plan_text(
        "fitup = 1\nunits = \"" + units + "\"\n[item.pump]\nsize = " + size +
        "\nmass = 20\n[box.main]\nbuild = \"plate\"\nrow = [{ of = \"pump\" }]\nclearance = { left = " + clear +
        ", right = " + clear + ", front = " + clear + ", back = " + clear + ", top = " + clear + " }\n");
    EXPECT_TRUE(p.result.plan) << p.said();
    const Instance* top = p.result.plan ? test::find_instance(*p.result.plan, "top") : nullptr;
    if (top == nullptr) return Flat{};
    return std::get<Flat>(p.result.plan->parts[top->part].form);
  };
  const auto border = [](const Flat& flat) {
    return flat.profile.holes.empty() ? 0 : flat.profile.holes.front().bounds().low.x - flat.profile.bounds().low.x;
  };
  const Flat metric = top_of("mm", "[220, 260, 240]", "60");
  EXPECT_NEAR(metric.thickness_mm, 4, 1e-9);
  EXPECT_NEAR(border(metric), 40, 4);
  const Flat inch = top_of("in", "[9, 10, 10]", "2.5");
  EXPECT_NEAR(inch.thickness_mm, 25.4 * 3 / 16, 1e-9);
  EXPECT_NEAR(border(inch), 38.1, 5);
}

}  // namespace
}  // namespace fitup::test

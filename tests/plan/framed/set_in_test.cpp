// Plates set inside between tubes and beside rod plates: places that can be worked out on paper.

#include <gtest/gtest.h>

#include <algorithm>

#include "plan/framed/planned.h"

namespace fitup {
namespace {

using test::box_of;
using test::find_instance;
using test::Planned;
using Replacements = std::vector<std::pair<std::string, std::string>>;

constexpr const char* left_plate = "left  = { closed_by = \"plate\", thickness = 2 }";
constexpr const char* right_plate = "right = { closed_by = \"plate\", thickness = 2 }";
constexpr const char* back_cover =
    "back  = { closed_by = \"cover\", style = \"flat\", thickness = 2, screws = { thread = \"M4\", max_spacing = 120 } "
    "}";
constexpr const char* set_left = "left = { closed_by = \"plate\", thickness = 2, set = \"inside\" }";

/// The demo in a frame of SHS 50x50x4, rounded by 8 outside: 1076 x 536 x 335 mm.
Planned of_tube(const Replacements& others, const std::string& uprights = "RHS 80x40x4") {
  Replacements all{{"section = \"L 40x40x4\", bottom_legs = \"down\", uprights = \"40x4\"",
                    "section = \"SHS 50x50x4\", uprights = \"" + uprights + "\""},
                   {"front = 44, back = 36", "front = 6, back = 0"}};
  all.insert(all.end(), others.begin(), others.end());
  return test::plan_demo(all);
}

const Replacements without_rod_plates{{"front = \"bolted\", back = \"welded\"", "front = \"none\", back = \"none\""}};

void expect_box(const Planned& planned, const std::string& name, Vec3 low, Vec3 high) {
  ASSERT_TRUE(planned.result.plan) << planned.said();
  const Instance* instance = find_instance(*planned.result.plan, name);
  ASSERT_NE(instance, nullptr) << name;
  const Box3 is = box_of(*planned.result.plan, *instance);
  EXPECT_LT(norm(is.low - low), 1e-6) << is.low.x << " " << is.low.y << " " << is.low.z;
  EXPECT_LT(norm(is.high - high), 1e-6) << is.high.x << " " << is.high.y << " " << is.high.z;
}

std::vector<std::string> welded_to(const Planned& planned, const std::string& name) {
  std::vector<std::string> out;
  for (const Joint& joint : planned.result.plan->joints) {
    if (joint.kind != JointKind::weld) continue;
    if (planned.result.plan->instances[joint.a].name == name)
      out.push_back(planned.result.plan->instances[joint.b].name);
  }
  std::sort(out.begin(), out.end());
  return out;
}

void expect_refused(const Planned& planned, const std::string& words) {
  EXPECT_FALSE(planned.result.plan);
  EXPECT_NE(planned.said().find(words), std::string::npos) << planned.said();
}

// The uprights are flat from 8 to 32 from the outside, the rings from 8 to 42; 1 mm of gap all round, beside rod plates
// that stand within the frame.
TEST(PlateSetInside, BetweenTubesStandsAsFarInAsAllOfThemAreFlat) {
  const Planned planned = of_tube({{left_plate, set_left}});
  expect_box(planned, "left plate", {30, 81, 51}, {32, 455, 284});
  EXPECT_NEAR(planned.result.plan->frame_size.x, 1076, 1e-9);
  EXPECT_EQ(welded_to(planned, "left plate"),
            (std::vector<std::string>{"bottom ring member left", "top ring member left", "upright back left",
                                      "upright front left"}));
}

// 60 of clearance over the blocks at 275, then 3 of plate, then the tubes' rounding of 8.
TEST(PlateSetInside, AtTheTopOfTubesRaisesThemByItsThicknessAndTheirRounding) {
  const Planned planned = of_tube(
      {{left_plate, std::string(left_plate) + "\ntop = { closed_by = \"plate\", thickness = 3, set = \"inside\" }"}});
  expect_box(planned, "top plate", {51, 51, 335}, {1025, 485, 338});
  EXPECT_NEAR(planned.result.plan->frame_size.z, 346, 1e-9);
}

TEST(PlateSetBetween, TheTopOfTubesStandsInTheClearance) {
  const std::string top = std::string(left_plate) + "\ntop = { closed_by = \"plate\", thickness = 3, set = \"inset\" }";
  expect_box(of_tube({{left_plate, top}}), "top plate", {51, 51, 324}, {1025, 485, 327});
  expect_refused(of_tube({{left_plate, top}, {"top = 60", "top = 10"}}), "clearance.top of at least 11 mm");
}

// From 8, 3 thick, a bead of 3, and 2 more to the rail.
TEST(PlateSetBetween, TubesLeavesTheEndsOfRailsItsBead) {
  Replacements all = without_rod_plates;
  all.emplace_back(back_cover, "back = { closed_by = \"plate\", thickness = 3, set = \"inset\" }");
  const Planned planned = of_tube(all);
  expect_box(planned, "back plate", {41, 525, 51}, {1035, 528, 284});
  EXPECT_NEAR(box_of(*planned.result.plan, *find_instance(*planned.result.plan, "rail 2")).high.y, 520, 1e-6);
}

TEST(PlateSetInside, OfTubesIsRefusedWhereRailsEndAndWhereNothingFlatTakesIt) {
  Replacements all = without_rod_plates;
  all.emplace_back(back_cover, "back = { closed_by = \"plate\", thickness = 3, set = \"inside\" }");
  expect_refused(of_tube(all),
                 "the rails end on the members there, and need their inner flats; choose set = \"inset\"");
  Replacements sides = without_rod_plates;
  sides.emplace_back(left_plate, set_left);
  expect_refused(of_tube(sides, "50x5"),
                 "share none of their width; choose set = \"outside\", or box.main.frame.uprights = "
                 "\"SHS 50x50x4\"");
}

// Blocks from Y 4 + 44 to 478, nuts of 5.2: rod plates from 42.8 and 483.2 outward. Then 2 for the plate's own bead, 2
// more, and at the back, where the rod plate is welded, 3 for the bead of that. The uprights reach to 40.
TEST(PlateSetInside, EndsBesideRodPlatesWithRoomForBeads) {
  const Planned planned = test::plan_demo({{left_plate, set_left}});
  expect_box(planned, "left plate", {4, 46.8, 40}, {6, 476.2, 318});
  EXPECT_NEAR(planned.result.plan->frame_size.x, 986, 1e-9);
  EXPECT_EQ(welded_to(planned, "left plate"),
            (std::vector<std::string>{"bottom ring member left", "top ring member left"}));
  const Box3 rods = box_of(*planned.result.plan, *find_instance(*planned.result.plan, "rod plate front"));
  EXPECT_NEAR(rods.high.y, 42.8, 1e-6);
}

// Uprights of 60 are lapped by 13.2; of 50 the 3.2 that would be left are no seam, so that it begins beyond them.
TEST(PlateSetInside, IsWeldedToUprightsThatReachBehindTheRodPlates) {
  const Planned wide = test::plan_demo({{left_plate, set_left}, {"uprights = \"40x4\"", "uprights = \"60x4\""}});
  expect_box(wide, "left plate", {4, 46.8, 40}, {6, 476.2, 318});
  EXPECT_EQ(welded_to(wide, "left plate"), (std::vector<std::string>{"bottom ring member left", "top ring member left",
                                                                     "upright back left", "upright front left"}));
  const Planned narrow = test::plan_demo({{left_plate, set_left}, {"uprights = \"40x4\"", "uprights = \"50x4\""}});
  expect_box(narrow, "left plate", {4, 51, 40}, {6, 476.2, 318});
}

TEST(PlateSetInside, IsRefusedWhereRodPlatesLeaveNothingOfIt) {
  const Planned planned = test::plan_text(R"(fitup = 1
[item.cell]
size = [150, 10, 220]
mass = 3
rods = { thread = "M6", at = [[16, 24], [134, 24], [16, 196], [134, 196]], projection = 20 }
[box.main]
row = [{ of = "cell" }]
clearance = { left = 20, right = 20, front = 44, back = 44, top = 60 }
frame = { section = "L 40x40x4", uprights = "40x4" }
rod_plates = { front = "bolted", back = "bolted" }
face.left = { closed_by = "plate", thickness = 6, set = "inside" }
)");
  expect_refused(planned, "between the rod plates and their beads nothing is left of it; choose set = \"inset\"");
}

}  // namespace
}  // namespace fitup

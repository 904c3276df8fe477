// Flanged covers at any face, bent ones, and plates set in: where they stand, in closed form.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

#include "plan/framed/planned.h"

namespace fitup {
namespace {

using test::box_of;
using test::find_instance;
using test::instances_of;
using test::plan_demo;
using test::Planned;

// The demo's frame: 984 x 518 x 329 of L 40x40x4, root radius 6; sheet 2, gap 2.
Planned with(const std::string& face, const std::string& keys,
             std::vector<std::pair<std::string, std::string>> more = {}) {
  more.push_back({"style = \"flanged\"", "style = \"flanged\", flange_depth = 25"});
  more.push_back({"left  = {", face + " = { " + keys + " }\nleft  = {"});
  return plan_demo(more);
}

Box3 box(const Planned& planned, const std::string& name) {
  const Instance* found = find_instance(*planned.result.plan, name);
  return found == nullptr ? Box3{} : box_of(*planned.result.plan, *found);
}

// Its sheet begins behind the front's flange (25 + 2) and laps gap and sheet (4) beyond the other three sides.
TEST(FlangedCover, at_the_top_laps_the_sides_and_the_back_behind_the_front_s_flange) {
  const Planned planned = with("top", "closed_by = \"cover\", style = \"flanged\", flange_depth = 25");
  ASSERT_TRUE(planned.result.plan) << planned.said();
  const Box3 sheet = box(planned, "top cover sheet");
  EXPECT_NEAR(sheet.low.x, -4, 1e-9);
  EXPECT_NEAR(sheet.high.x, 984 + 4, 1e-9);
  EXPECT_NEAR(sheet.low.y, 27, 1e-9);
  EXPECT_NEAR(sheet.high.y, 518 + 4, 1e-9);
  const Box3 flange = box(planned, "top cover flange left");
  EXPECT_NEAR(flange.low.x, -4, 1e-9);
  EXPECT_NEAR(flange.high.x, -2, 1e-9);
  EXPECT_NEAR(flange.low.z, 329 - 25, 1e-9);
  EXPECT_NEAR(flange.high.z, 329, 1e-9);
  EXPECT_EQ(find_instance(*planned.result.plan, "top cover flange front"), nullptr);
  // Plates and the flat back begin 2 mm below its flange.
  EXPECT_NEAR(box(planned, "left plate").high.z, 329 - 27, 1e-9);
  EXPECT_NEAR(box(planned, "back cover sheet").high.z, 329 - 27, 1e-9);
}

// L 30x30x3 (EN 10056-1: root radius 5) round a sheet of 2 with a gap of 2: outside 2 + 3 = 5 beyond the frame; its
// other leg reaches 30 - 3 - 2 = 25 over it. The sheet ends where the fillet does, 5 - 2 = 3 inside the frame's edge.
TEST(AngleFlange, lies_on_the_sheet_with_one_leg_and_laps_the_frame_with_the_other) {
  const Planned planned = plan_demo({{"style = \"flanged\"", "style = \"flanged\", flanges = \"angle\""}});
  ASSERT_TRUE(planned.result.plan) << planned.said();
  const Plan& plan = *planned.result.plan;
  const Box3 sheet = box(planned, "front cover sheet");
  EXPECT_NEAR(sheet.low.x, 3, 1e-9);
  EXPECT_NEAR(sheet.high.z, 329 - 3, 1e-9);
  const Box3 top = box(planned, "front cover flange top");
  EXPECT_NEAR(top.low.y, -2 - 3, 1e-9);
  EXPECT_NEAR(top.high.y, 25, 1e-9);
  EXPECT_NEAR(top.high.z, 329 + 5, 1e-9);
  EXPECT_NEAR(top.low.z, 329 + 5 - 30, 1e-9);
  // Mitred ends stand half the weld gap of 1 behind the corner's plane: 1 / sqrt 2 along the heel.
  EXPECT_NEAR(top.low.x, -5 + std::sqrt(0.5), 1e-5);
  const Instance* left = find_instance(plan, "front cover flange left");
  ASSERT_NE(left, nullptr);
  const auto& member = std::get<Member>(plan.parts[left->part].form);
  EXPECT_NE(member.start.mitre.has_value(), member.end.mitre.has_value());  // its lower end is square
  EXPECT_NEAR(box(planned, "front cover flange left").low.z, 2, 1e-9);
}

TEST(AngleFlange, butted_ends_before_the_leg_of_the_one_that_runs_whole) {
  const Planned planned =
      plan_demo({{"style = \"flanged\"", "style = \"flanged\", flanges = \"angle\", flange_corners = \"butted\""}});
  ASSERT_TRUE(planned.result.plan) << planned.said();
  EXPECT_NEAR(box(planned, "front cover flange top").low.x, -5, 1e-9);
  EXPECT_NEAR(box(planned, "front cover flange left").high.z, 329 + 5 - 30 - 1, 1e-9);  // a weld gap of 1 below it
}

// The sides' lying leg ends a weld gap of 1 before the toe of the one at the top, at 30 + 1 from its outside; their
// other leg goes on below it to 1 before its inner face, at 3 + 1: 27 more, but for a band as wide as its thickness and
// the gap at the heel, and a chamfer as long as its root radius of 5 less the gap (all angles EN 10056-1).
TEST(AngleFlange, coped_enters_the_profile_of_the_one_that_runs_whole) {
  const Planned planned =
      plan_demo({{"style = \"flanged\"", "style = \"flanged\", flanges = \"angle\", flange_corners = \"coped\""}});
  ASSERT_TRUE(planned.result.plan) << planned.said();
  const Plan& plan = *planned.result.plan;
  EXPECT_NEAR(box(planned, "front cover flange left").high.z, 329 + 5 - 3 - 1, 1e-9);
  const Instance* left = find_instance(plan, "front cover flange left");
  ASSERT_NE(left, nullptr);
  const auto& member = std::get<Member>(plan.parts[left->part].form);
  const bool at_end = member.end.a.steps.front().set_back_mm > 0;
  const EndCut& cope = at_end ? member.end : member.start;
  EXPECT_EQ(cope.a, (LegCut{{{0, 30, 27}}, {}}));
  EXPECT_EQ(cope.b, (LegCut{{{0, 4, 27}, {4, 30, 0}}, {{4, CornerKind::chamfer, 4}}}));
  EXPECT_EQ(at_end ? member.start : member.end, (EndCut{{{{0, 30, 0}}, {}}, {{{0, 30, 0}}, {}}}));
}

// A boss 25 across at (200, 24) on the front's leg: 5 for its bead all round make 182.5 to 217.5 along the top flange,
// from 24 - 17.5 = 6.5 behind the frame's face on. Screws keep 1.2 holes of 4.5 from it.
const std::pair<std::string, std::string> bosses_in_front{"points = 4\n",
                                                          "at = [[200, 24], [784, 24], [200, 494], [784, 494]]\n"};

std::vector<double> along_top(const Planned& planned) {
  std::vector<double> at;
  for (int i = 1;; ++i) {
    const Instance* screw = find_instance(*planned.result.plan, "front cover screw top " + std::to_string(i));
    if (screw == nullptr) return at;
    at.push_back(screw->pose.origin().x);
  }
}

TEST(Notch, in_a_leg_of_angle_is_numbers_of_the_member) {
  const Planned planned =
      plan_demo({bosses_in_front,
                 {"style = \"flanged\"", "style = \"flanged\", flanges = \"angle\", flange_corners = \"butted\""}});
  ASSERT_TRUE(planned.result.plan) << planned.said();
  const Plan& plan = *planned.result.plan;
  const Instance* top = find_instance(plan, "front cover flange top");
  ASSERT_NE(top, nullptr);
  const auto& member = std::get<Member>(plan.parts[top->part].form);
  ASSERT_EQ(member.notches.size(), 2U);
  // From its end 5 beyond the frame; leg B's heel is 5 before the frame's face, and its toe at 25.
  for (const MemberNotch& notch : member.notches) {
    EXPECT_EQ(notch.leg, Leg::b);
    EXPECT_NEAR(notch.to_mm - notch.from_mm, 35, 1e-9);
    EXPECT_NEAR(notch.depth_mm, 25 - 6.5, 1e-9);
  }
  Part whole = plan.parts[top->part];
  std::get<Member>(whole.form).notches.clear();
  // EN 10056-1: toe radius 2.5 of L 30x30x3: what a notch takes is the leg less that rounding.
  const double toe = 2.5 * 2.5 * (1 - M_PI / 4);
  EXPECT_NEAR(volume_mm3(whole) - volume_mm3(plan.parts[top->part]), 2 * 35 * (18.5 * 3 - toe), 1e-6);
}

TEST(Notch, moves_the_screws_of_a_row_by_rule_and_keeps_it_symmetrical) {
  const Planned planned = plan_demo({bosses_in_front});
  ASSERT_TRUE(planned.result.plan) << planned.said();
  const std::vector<double> at = along_top(planned);
  ASSERT_GT(at.size(), 2U);
  for (std::size_t i = 0; i < at.size(); ++i) {
    EXPECT_NEAR(at[i] + at[at.size() - 1 - i], 984, 1e-9);
    EXPECT_GE(std::abs(at[i] - 200), 17.5 + 1.2 * 4.5 - 1e-9);
    if (i > 0) {
      EXPECT_LE(at[i] - at[i - 1], 90 + 1e-9);
    }
  }
}

// r = t = 2: the side begins 2 behind the frame's face, in the pattern and bent up alike.
TEST(Notch, in_a_bent_flange_is_in_the_pattern_and_in_the_body) {
  const Planned planned =
      plan_demo({bosses_in_front, {"style = \"flanged\"", "style = \"flanged\", flanges = \"bent\""}});
  const Planned whole = plan_demo({{"style = \"flanged\"", "style = \"flanged\", flanges = \"bent\""}});
  ASSERT_TRUE(planned.result.plan && whole.result.plan) << planned.said();
  const auto sheet = [](const Planned& p) {
    return p.result.plan->parts[find_instance(*p.result.plan, "front cover sheet")->part];
  };
  const auto outer = [](const Part& part) { return Profile{std::get<Flat>(part.form).profile.outer, {}}.area_mm2(); };
  // Two corners of radius 3 each leave 9 (1 - pi / 4).
  const double taken = 2 * (35 * (30 - 6.5) - 2 * 9 * (1 - M_PI / 4));
  EXPECT_NEAR(outer(sheet(whole)) - outer(sheet(planned)), taken, 1e-6);
  const double holes = M_PI / 4 * 4.5 * 4.5 * static_cast<double>(along_top(planned).size() - along_top(whole).size());
  EXPECT_NEAR(volume_mm3(sheet(whole)) - volume_mm3(sheet(planned)), 2 * (taken + holes), 1e-6);
}

// DIN 6935, r = t = 2: k = 0.325, zone pi/2 (2 + 0.65). From where the sheet is flat, r - gap = 0 inside the frame's
// edge, the pattern runs on over the zone and the flange's flat length 30 - 2.
TEST(BentCover, has_the_pattern_that_its_body_is_bent_from) {
  const Planned planned = plan_demo({{"style = \"flanged\"", "style = \"flanged\", flanges = \"bent\""}});
  ASSERT_TRUE(planned.result.plan) << planned.said();
  const Plan& plan = *planned.result.plan;
  const Instance* sheet = find_instance(plan, "front cover sheet");
  ASSERT_NE(sheet, nullptr);
  const Part& part = plan.parts[sheet->part];
  const auto& flat = std::get<Flat>(part.form);
  const double zone = M_PI / 2 * (2 + 0.325 * 2);
  const Vec2 size = flat.profile.bounds().size();
  EXPECT_NEAR(size.x, 984 + 2 * (zone + 28), 1e-9);
  EXPECT_NEAR(size.y, 329 - 2 + zone + 28, 1e-9);  // held back 2 mm at the bottom, where it has no flange
  ASSERT_EQ(flat.bends.size(), 3U);
  double bent = 0;
  for (const Bend& bend : flat.bends) bent += norm(bend.to - bend.from);
  EXPECT_NEAR(bent, 2 * (329 - 2 - 2) + 984 - 2 * 2, 1e-9);  // one thickness of relief beyond each meeting bend
  EXPECT_NEAR(flat.profile.area_mm2() * 2 - volume_mm3(part), bent * M_PI / 2 * 4 * (0.325 - 0.5), 1e-6);
  const Box3 body = box_of(plan, *sheet);
  EXPECT_NEAR(body.low.x, -4, 1e-6);
  EXPECT_NEAR(body.high.y, 30, 1e-6);
  EXPECT_NEAR(body.high.z, 329 + 4, 1e-6);
  EXPECT_TRUE(instances_of(plan, Role::cover_flange).empty());
}

// 4 of wall and 2 of plate, 4 of wall and 3 of plate: the inside stays 976 wide.
TEST(PlateSetIn, behind_the_uprights_makes_the_frame_as_much_wider) {
  const Planned planned = plan_demo(
      {{"left  = { closed_by = \"plate\", thickness = 2 }", "left = { closed_by = \"plate\", set = \"inside\" }"},
       {"right = { closed_by = \"plate\", thickness = 2 }",
        "right = { closed_by = \"plate\", thickness = 3, set = \"inside\" }"},
       {"rod_plates = { thickness = 3, clearance_hole = \"loose\", front = \"bolted\", back = \"welded\", "
        "screw = \"M4\" }",
        ""}});
  ASSERT_TRUE(planned.result.plan) << planned.said();
  EXPECT_NEAR(planned.result.plan->frame_size.x, 984 + 5, 1e-9);
  const Box3 left = box(planned, "left plate");
  EXPECT_NEAR(left.low.x, 4, 1e-9);
  EXPECT_NEAR(left.high.x, 6, 1e-9);
  EXPECT_NEAR(left.low.z, 40, 1e-9);                  // on the lying leg
  EXPECT_NEAR(left.high.z, 329 - (4 + 6 + 1), 1e-9);  // thickness, root and cope gap below the heel
  EXPECT_NEAR(box(planned, "block 1").low.x, 4 + 2 + 8, 1e-9);
}

TEST(PlateSetIn, between_the_members_leaves_the_weld_its_gap) {
  const Planned planned = plan_demo(
      {{"left  = { closed_by = \"plate\", thickness = 2 }", "left = { closed_by = \"plate\", set = \"inset\" }"}});
  ASSERT_TRUE(planned.result.plan) << planned.said();
  const Box3 left = box(planned, "left plate");
  EXPECT_NEAR(left.low.x, 0, 1e-9);
  EXPECT_NEAR(left.low.y, 41, 1e-9);
  EXPECT_NEAR(left.high.y, 518 - 41, 1e-9);
  EXPECT_NEAR(left.low.z, 41, 1e-9);
  EXPECT_NEAR(left.high.z, 329 - 41, 1e-9);
  EXPECT_NEAR(planned.result.plan->frame_size.x, 984, 1e-9);
}

}  // namespace
}  // namespace fitup

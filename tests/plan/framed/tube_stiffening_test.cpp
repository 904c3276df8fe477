// What stiffens a frame of tube: places and lengths that can be worked out on paper.

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "plan/framed/planned.h"
#include "plan/rail_sag.h"

namespace fitup {
namespace {

using test::box_of;
using test::expect_box;
using test::find_instance;
using test::instances_of;
using test::joined;
using test::part_of;
using test::Planned;
using Replacements = std::vector<std::pair<std::string, std::string>>;

/// The demo in a frame of SHS 50x50x4, rounded by 8 outside, with uprights of RHS 80x40x4: 976 + 100 wide, 430 + 6 +
/// 100 deep, 50 + 5 + 220 + 60 high.
Planned of_tube(const std::string& more, const Replacements& others = {}, const std::string& uprights = "RHS 80x40x4") {
  Replacements all{{"section = \"L 40x40x4\", bottom_legs = \"down\", uprights = \"40x4\"",
                    "section = \"SHS 50x50x4\", uprights = \"" + uprights + "\", " + more},
                   {"front = 44, back = 36", "front = 6, back = 0"}};
  all.insert(all.end(), others.begin(), others.end());
  return test::plan_demo(all);
}

Plan stiffened(const std::string& more, const Replacements& others = {}) {
  const Planned planned = of_tube(more, others);
  EXPECT_TRUE(planned.result.plan) << planned.said();
  return planned.result.plan.value_or(Plan{});
}

void expect_refused(const Planned& planned, const std::string& words) {
  EXPECT_FALSE(planned.result.plan);
  EXPECT_NE(planned.said().find(words), std::string::npos) << planned.said();
}

const Replacements without_lifting{{"[lifting]\nthread = \"M10\"\npoints = 4\n", ""}};

// Rings flush outside, the inside as wide as the wider leaves it: 55 + 220 + 60 high with a top of SHS 40x40x4. Side
// members and uprights end 1 mm from what they meet.
TEST(TopRingOfTube, MayBeOfAnotherTubeThanTheBottom) {
  const Plan plan = stiffened("top_section = \"SHS 40x40x4\"", without_lifting);
  expect_box(plan, "bottom ring member left", {0, 51, 0}, {50, 485, 50});
  expect_box(plan, "top ring member front", {0, 0, 295}, {1076, 40, 335});
  expect_box(plan, "top ring member left", {0, 41, 295}, {40, 495, 335});
  expect_box(plan, "upright back right", {1036, 456, 50}, {1076, 536, 294});
  const std::vector<std::string> met = joined(plan, "upright back right");
  for (const char* ring : {"bottom ring member back", "bottom ring member right", "top ring member back",
                           "top ring member right"})
    EXPECT_NE(std::find(met.begin(), met.end(), ring), met.end()) << ring;
}

TEST(TopRingOfTube, HasCapsThatGoIntoItsOwnTubes) {
  Replacements higher = without_lifting;
  higher.emplace_back("top = 60", "top = 80");
  const Plan plan = stiffened("top_section = \"RHS 60x40x4\", long_side = \"standing\"", higher);
  expect_box(plan, "top ring member back", {0, 496, 295}, {1076, 536, 355});
  // 4 mm of wall and half a millimetre of play all round.
  expect_box(plan, "top cap back left", {4.5, 500.5, 299.5}, {8.5, 531.5, 350.5});
  expect_box(plan, "bottom cap back left", {4.5, 490.5, 4.5}, {8.5, 531.5, 45.5});
  EXPECT_NE(part_of(plan, "top cap back left").mark, part_of(plan, "bottom cap back left").mark);
}

TEST(TopRingOfTube, IsRefusedOverOneOfAngle) {
  expect_refused(test::plan_demo({{"uprights = \"40x4\"", "uprights = \"40x4\", top_section = \"SHS 40x40x4\""}}),
                 "box.main.frame.top_section = \"SHS 40x40x4\" is not built over a bottom ring of angle");
  expect_refused(of_tube("top_section = \"L 50x50x5\""), "is not built over a bottom ring of tube");
}

// Sawn square 1 mm from the tubes, whose sides are 50 from the outside; 536 / 2 is its middle.
TEST(CrossBarsOfTube, AreTheRingsOwnTubeBetweenItsSides) {
  const Plan plan = stiffened("cross_bars = { count = 1 }");
  expect_box(plan, "cross bar 1", {51, 243, 0}, {1025, 293, 50});
  EXPECT_EQ(part_of(plan, "cross bar 1").size, "SHS 50x50x4 x 974 mm");
  EXPECT_EQ(part_of(plan, "cross bar 1").source, Source::sawn);
  EXPECT_EQ(joined(plan, "cross bar 1"),
            (std::vector<std::string>{"bottom ring member left", "bottom ring member right", "rail 1", "rail 2",
                                      "rail 3", "rail 4", "rail 5", "rail 6", "rail 7"}));
}

TEST(CrossBarsOfTube, HangFromTheHeightOfTheTubesTops) {
  const Plan lying = stiffened("cross_bars = { section = \"RHS 50x30x3\", long_side = \"flat\", at = [268] }");
  expect_box(lying, "cross bar 1", {51, 243, 20}, {1025, 293, 50});
  const Plan standing = stiffened("cross_bars = { section = \"RHS 50x30x3\", at = [150] }");
  expect_box(standing, "cross bar 1", {51, 135, 0}, {1025, 165, 50});
  const Plan angle = stiffened("cross_bars = { section = \"L 40x40x4\", at = [268] }");
  expect_box(angle, "cross bar 1", {51, 248, 10}, {1025, 288, 50});
}

// On tubes a flat bar stands by itself: lying its ends would be beside the tubes' rounding.
TEST(CrossBarsOfTube, OfFlatBarStand) {
  const Plan plan = stiffened("corners = \"mitred\", cross_bars = { section = \"40x8\", at = [268] }");
  expect_box(plan, "cross bar 1", {51, 264, 10}, {1025, 272, 50});
  expect_refused(of_tube("cross_bars = { section = \"40x10\", long_side = \"flat\" }"),
                 "sides are flat only 8 mm below their tops; leave it out, or choose a section at least 13 mm high, or "
                 "stand it by long_side = \"standing\"");
}

TEST(CrossBarsOfTube, RunFromFrontToBackUnderRailsFromLeftToRight) {
  const Plan plan = stiffened("cross_bars = { at = [300] }",
                              {{"foot_strips = { width = 16 }", "foot_strips = { width = 16, sides = \"front back\" }"},
                               {", outer_width = 40", ""},
                               {"front = 6, back = 0", "front = 32, back = 32"},
                               {"front = \"bolted\", back = \"welded\"", "front = \"none\", back = \"none\""}});
  expect_box(plan, "cross bar 1", {275, 51, 0}, {325, 543, 50});
}

TEST(CrossBarsOfTube, AreRefusedHigherThanTheRingAndOnRingsOfAngle) {
  expect_refused(of_tube("cross_bars = { section = \"RHS 60x40x4\" }"),
                 "60 mm high and reach 10 mm below the bottom ring, whose tubes leave 50 mm under the rails");
  expect_refused(
      test::plan_demo({{"uprights = \"40x4\"", "uprights = \"40x4\", cross_bars = { section = \"SHS 40x40x4\" }"}}),
      "frame.cross_bars of SHS 40x40x4 is not built on rings of angle, whose legs, 4 mm thick, it would meet by its "
      "upper wall alone; leave it out, or choose a flat bar or an angle");
}

// EN 10219-2 (from memory): 50x50x4 has I = 23.7 cm4, 40x40x3 9.32 cm4.
TEST(Inertia, OfTubesIsThatOfTheTables) {
  EXPECT_NEAR(plan::inertia_mm4(*tables::find_section("SHS 50x50x4"), Leg::a), 23.7e4, 0.1e4);
  EXPECT_NEAR(plan::inertia_mm4(*tables::find_section("SHS 40x40x3"), Leg::b), 9.32e4, 0.05e4);
  // Without rounding it is the difference of two rectangles.
  Section sharp = *tables::find_section("SHS 50x50x4");
  sharp.corner_radius_mm = 0;
  EXPECT_NEAR(plan::inertia_mm4(sharp, Leg::a), (std::pow(50, 4) - std::pow(42, 4)) / 12, 1e-6);
}

// The rings' flats are from 8 to 42 from the outside, the uprights' from 8 to 32: their middle is at 20. Leg 60 and as
// thick as the walls: 60^2 - 56^2 / 2 - 10^2 / 2 = 1982 mm2.
TEST(GussetsOfTube, StandInTheMiddleOfTheFlatsThatRingAndUprightShare) {
  const Plan plan = stiffened("gussets = {}");
  const auto all = instances_of(plan, Role::gusset);
  ASSERT_EQ(all.size(), 8U);
  for (const Instance* gusset : all) EXPECT_EQ(gusset->part, all.front()->part);
  EXPECT_NEAR(volume_mm3(plan.parts[all.front()->part]), 1982 * 4, 1e-6);
  expect_box(plan, "gusset bottom front left", {18, 80, 50}, {22, 140, 110});
  expect_box(plan, "gusset top back right", {1054, 396, 225}, {1058, 456, 285});
  EXPECT_EQ(joined(plan, "gusset bottom front left"),
            (std::vector<std::string>{"bottom ring member left", "upright front left"}));
}

// Behind a plate of 3 between the members, flush from 8: both plates' beads are 3 and 4 wide, so that 18 to 32 is left.
TEST(GussetsOfTube, StandBehindAPlateThatIsSetBetweenTheMembers) {
  const Plan plan = stiffened("gussets = {}", {{"left  = { closed_by = \"plate\", thickness = 2 }",
                                                "left  = { closed_by = \"plate\", thickness = 3, set = \"inset\" }"}});
  expect_box(plan, "left plate", {8, 81, 51}, {11, 455, 284});
  expect_box(plan, "gusset bottom front left", {23, 80, 50}, {27, 140, 110});
  expect_box(plan, "gusset bottom front right", {1054, 80, 50}, {1058, 140, 110});
}

// Rails that end on the side members begin behind the gussets, which then stand as far out as their bead lets them:
// 8 + 4, 4 thick, another bead of 4 and 2 to the rail.
TEST(GussetsOfTube, LeaveRailsFromLeftToRightTheInnerPartOfTheTubes) {
  const Plan plan = stiffened("gussets = {}",
                              {{"foot_strips = { width = 16 }", "foot_strips = { width = 16, sides = \"front back\" }"},
                               {", outer_width = 40", ""},
                               {"front = 6, back = 0", "front = 32, back = 32"},
                               {"front = \"bolted\", back = \"welded\"", "front = \"none\", back = \"none\""}});
  expect_box(plan, "gusset bottom front left", {12, 80, 50}, {16, 140, 110});
  EXPECT_NEAR(box_of(plan, *find_instance(plan, "rail 1")).low.x, 22, 1e-6);
}

// Rings 60 wide: the side members begin at 61, beyond uprights of 40; the front member's flat ends at 52, so that the
// gusset, begun 10 from the upright, lies on both.
TEST(GussetsOfTube, LieOnTheFrontMemberTooBeyondNarrowUprights) {
  const Planned planned =
      test::plan_demo({{"section = \"L 40x40x4\", bottom_legs = \"down\", uprights = \"40x4\"",
                        "section = \"RHS 80x60x4\", uprights = \"SHS 40x40x4\", gussets = { leg = 80 }"},
                       {"front = 44, back = 36", "front = 20, back = 20"},
                       {"front = \"bolted\", back = \"welded\"", "front = \"none\", back = \"none\""},
                       {"top = 60", "top = 90"}});
  ASSERT_TRUE(planned.result.plan) << planned.said();
  expect_box(*planned.result.plan, "gusset bottom front left", {18, 40, 80}, {22, 120, 160});
  EXPECT_EQ(joined(*planned.result.plan, "gusset bottom front left"),
            (std::vector<std::string>{"bottom ring member front", "bottom ring member left", "upright front left"}));
}

TEST(GussetsOfTube, AreRefusedWhereNoFlatsTakeThem) {
  expect_refused(
      of_tube("gussets = { thickness = 26 }"),
      "share 24 mm of their width; leave it out, or choose box.main.frame.gussets.thickness of at most 24 mm");
  expect_refused(
      of_tube("gussets = {}", {{"front = \"bolted\", back = \"welded\"", "front = \"none\", back = \"none\""}}, "50x5"),
      "share none of their width; leave it out, or choose box.main.frame.uprights = \"SHS 50x50x4\"");
  expect_refused(
      of_tube("gussets = { thickness = 12 }", {{"left  = { closed_by = \"plate\", thickness = 2 }",
                                                "left  = { closed_by = \"plate\", thickness = 3, set = \"inset\" }"}}),
      "or choose box.main.face.left.set = \"outside\"");
}

/// The demo's rings of L 40x40x4 with other uprights: 976 and the walls wide, 512 deep, 329 high.
Plan on_angle(const std::string& uprights_and_more, const Replacements& others = {}) {
  Replacements all{{"uprights = \"40x4\"", "uprights = " + uprights_and_more}, {"back = 36", "back = 30"}};
  all.insert(all.end(), others.begin(), others.end());
  const Planned planned = test::plan_demo(all);
  EXPECT_TRUE(planned.result.plan) << planned.said();
  return planned.result.plan.value_or(Plan{});
}

// The lying legs are flat from 4 + 6 to 40 - 3, the uprights from 8 to 32; two beads' width from there. Under the top's it
// begins 4 below the frame's top, 40 + 1 - 4 above the upright's end: 60 x 97 - 56 x 93 / 2 - 10^2 / 2 = 3166 mm2.
TEST(GussetsOfTube, StandUnderTheLyingLegsOfAngles) {
  const Plan plan = on_angle("\"SHS 40x40x4\", gussets = {}");
  expect_box(plan, "gusset bottom front left", {24, 40, 40}, {28, 100, 100});
  expect_box(plan, "gusset top back right", {1056 - 28, 412, 228}, {1056 - 24, 472, 325});
  EXPECT_NEAR(volume_mm3(part_of(plan, "gusset bottom front left")), 1982 * 4, 1e-6);
  EXPECT_NEAR(volume_mm3(part_of(plan, "gusset top back right")), 3166 * 4, 1e-6);
  EXPECT_EQ(joined(plan, "gusset top back right"),
            (std::vector<std::string>{"top ring member right", "upright back right"}));
}

// From the upright's face at 40 it would begin at 50, the very edge of the front's lying leg of 50: it begins 1 behind it.
TEST(GussetsOfTube, BeginBehindTheEdgeOfTheFrontsLyingLeg) {
  const Plan plan = on_angle("\"SHS 40x40x4\", gussets = {}", {{"section = \"L 40x40x4\"", "section = \"L 50x50x5\""}});
  EXPECT_EQ(joined(plan, "gusset bottom front left"),
            (std::vector<std::string>{"bottom ring member left", "upright front left"}));
  const auto& corners = std::get<Flat>(part_of(plan, "gusset bottom front left").form).profile.outer.vertices;
  EXPECT_NEAR(corners.front().at.x, 11, 1e-9);
}

// Flush, between a ring's toe or lying leg and the toe of the corner's angle.
TEST(GussetsOfAngle, StandFlushBesideCornerPosts) {
  const Plan plan = on_angle("\"L 40x40x4\", gussets = {}",
                             {{"left = 8, right = 8", "left = 38, right = 38"},
                              {"front = \"bolted\", back = \"welded\"", "front = \"none\", back = \"none\""}});
  expect_box(plan, "gusset bottom front left", {0, 40, 40}, {4, 100, 100});
  expect_box(plan, "gusset top front left", {0, 40, 229}, {4, 100, 289});
}

constexpr const char* left_plate = "left  = { closed_by = \"plate\", thickness = 2 }";

// From the sawn ends of the front's and the back's members at 50, and the gap of 1, a bead of 4 and 1 more: 536 - 2 x
// 56; from below the rounding of 8 and as much: 335 - 2 x 13. A strip of half width h along the diagonal of a rectangle
// cuts off two triangles, each ((d - h) / d)^2 of half the rectangle, d = W H / D.
TEST(BracesOfTube, LieOnTheFlatsBetweenTheSawnEndsOfTheOthers) {
  const Plan plan = stiffened("braces = { left = \"rising\" }", {{left_plate, "left = {}"}});
  expect_box(plan, "brace left", {-5, 56, 13}, {0, 480, 322});
  const double w = 424;
  const double h = 309;
  const double d = w * h / std::hypot(w, h);
  EXPECT_NEAR(volume_mm3(part_of(plan, "brace left")), 5 * w * h * (1 - std::pow((d - 20) / d, 2)), 1e-3);
  // Where the upright's flat ends at Y 72 its upper edge is at 37.7 + 16 x 309 / 424, below the upright's foot.
  EXPECT_EQ(joined(plan, "brace left"), (std::vector<std::string>{"bottom ring member left", "top ring member left"}));
}

// Mitred, the side members are closed to their corners: from the front cover's flange at 32, and to 536 - 13. Where the
// front upright's flat ends, at Y 72, the upper edge is at 13 + 40 x 309 / 491 + 20 x 580 / 491 = 61.8, above its foot
// at 50.
TEST(BracesOfTube, ReachTheUprightsOnMitredRings) {
  const Plan plan = stiffened("corners = \"mitred\", braces = { left = \"rising\" }", {{left_plate, "left = {}"}});
  expect_box(plan, "brace left", {-5, 32, 13}, {0, 523, 322});
  EXPECT_EQ(joined(plan, "brace left"), (std::vector<std::string>{"bottom ring member left", "top ring member left",
                                                                  "upright back left", "upright front left"}));
}

// The back's member runs through, so that the brace begins beside the corner of the frame.
TEST(BracesOfTube, InTheBackRunFromCornerToCorner) {
  const Plan plan = stiffened("braces = { back = \"falling\" }",
                              {{"back  = { closed_by = \"cover\", style = \"flat\", thickness = 2, screws = { "
                                "thread = \"M4\", max_spacing = 120 } }",
                                "back = {}"}});
  expect_box(plan, "brace back", {13, 536, 13}, {1063, 541, 322});
  EXPECT_EQ(joined(plan, "brace back"), (std::vector<std::string>{"bottom ring member back", "top ring member back"}));
}

// Beyond the tubes' rounding of 6, a bead of 4 and 1 more: 512 deep, of which the front cover's flange takes 32, 329 high.
TEST(BracesOfTube, LieOnAnglesAndUprightsOfTube) {
  const Planned planned = test::plan_demo(
      {{"uprights = \"40x4\"", "uprights = \"SHS 40x40x3\", braces = { left = \"rising\" }"},
       {"back = 36", "back = 30"},
       {left_plate, "left = {}"}});
  ASSERT_TRUE(planned.result.plan) << planned.said();
  expect_box(*planned.result.plan, "brace left", {-5, 32, 11}, {0, 501, 318});
  EXPECT_EQ(joined(*planned.result.plan, "brace left"),
            (std::vector<std::string>{"bottom ring member front", "bottom ring member left", "top ring member left",
                                      "upright back left"}));
}

// An angle of 40 on tubes rounded by 4 has its side leg of 4 over the rounding of the side member, which begins at 31.
TEST(UprightsOnTube, MayTouchWhatTheyStandOnByAnEdgeAlone) {
  const test::Planned planned = test::plan_text(R"(fitup = 1
[item.block]
size = [120, 260, 150]
mass = 6
foot_strips = { width = 16 }
[box.main]
row = [{ of = "block", count = 3, gap = 6 }]
clearance = { left = 12, right = 12, front = 30, back = 30, top = 80 }
frame = { section = "SHS 30x30x2", uprights = "L 40x40x4" }
)");
  ASSERT_TRUE(planned.result.plan) << planned.said();
  const Plan& plan = *planned.result.plan;
  const auto between = [&](const std::string& ring) {
    return std::find_if(plan.joints.begin(), plan.joints.end(), [&](const Joint& joint) {
      return plan.instances[joint.a].name == "upright front left" && plan.instances[joint.b].name == ring;
    });
  };
  ASSERT_NE(between("bottom ring member left"), plan.joints.end());
  EXPECT_EQ(between("bottom ring member left")->kind, JointKind::slip);
  ASSERT_NE(between("bottom ring member front"), plan.joints.end());
  EXPECT_EQ(between("bottom ring member front")->kind, JointKind::weld);
}

}  // namespace
}  // namespace fitup

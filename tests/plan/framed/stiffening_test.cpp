// What stiffens a frame, and what sags without it: places, lengths and volumes that can be worked out on paper.

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "plan/framed/planned.h"
#include "plan/rail_sag.h"
#include "spec/spec_of.h"

namespace fitup {
namespace {

using test::box_of;
using test::expect_box;
using test::find_instance;
using test::instances_of;
using test::joined;
using test::part_of;
using test::plan_demo;
using Replacements = std::vector<std::pair<std::string, std::string>>;

constexpr const char* frame_end = "uprights = \"40x4\" }";
constexpr const char* left_plate = "left  = { closed_by = \"plate\", thickness = 2 }";

/// The demo, 984 x 518 x 329 mm, with more in its frame.
Plan stiffened(const std::string& more, const Replacements& others = {}) {
  Replacements all{{frame_end, "uprights = \"40x4\", " + more + " }"}};
  all.insert(all.end(), others.begin(), others.end());
  const test::Planned planned = plan_demo(all);
  EXPECT_TRUE(planned.result.plan) << planned.said();
  return planned.result.plan.value_or(Plan{});
}

Box3 box(const Plan& plan, const std::string& name) {
  const Instance* instance = find_instance(plan, name);
  EXPECT_NE(instance, nullptr) << name;
  return instance != nullptr ? box_of(plan, *instance) : Box3{};
}

// Between the toes at Y 40 and Y 478 a bar 40 wide has 199 mm on either side; coped, its hanging leg goes under the
// lying ones to 1 mm from the standing ones, which are 4 thick.
TEST(CrossBars, OfTheRingsAngleReachUnderItsLegs) {
  const Plan plan = stiffened("cross_bars = {}");
  ASSERT_EQ(instances_of(plan, Role::cross_bar).size(), 1U);
  expect_box(plan, "cross bar 1", {5, 239, 0}, {979, 279, 40});
  EXPECT_EQ(part_of(plan, "cross bar 1").mark, "CRB01");
  EXPECT_EQ(part_of(plan, "cross bar 1").size, "L 40x40x4 x 974 mm");
  EXPECT_EQ(joined(plan, "cross bar 1"),
            (std::vector<std::string>{"bottom ring member left", "bottom ring member right", "rail 1", "rail 2",
                                      "rail 3", "rail 4", "rail 5", "rail 6", "rail 7"}));
}

// 984 - 2 x (40 + 1) long; the area is that of the table in EN 10056-1, 1.74 cm2.
TEST(CrossBars, OfAButtedFrameEndSquareBetweenTheToes) {
  const Plan plan = stiffened("corners = \"butted\", cross_bars = { section = \"L 30x30x3\", at = [340, 180] }");
  ASSERT_EQ(instances_of(plan, Role::cross_bar).size(), 2U);
  expect_box(plan, "cross bar 1", {41, 165, 10}, {943, 195, 40});
  expect_box(plan, "cross bar 2", {41, 325, 10}, {943, 355, 40});
  EXPECT_NEAR(volume_mm3(part_of(plan, "cross bar 1")) / 902, 174, 0.9);
  EXPECT_EQ(find_instance(plan, "cross bar 1")->part, find_instance(plan, "cross bar 2")->part);
}

TEST(CrossBars, OfFlatBarLieOrStandOnEdge) {
  const Plan lying = stiffened("cross_bars = { section = \"40x5\", at = [200] }");
  expect_box(lying, "cross bar 1", {41, 180, 35}, {943, 220, 40});
  EXPECT_NEAR(volume_mm3(part_of(lying, "cross bar 1")), 902 * 40 * 5, 1e-6);
  const Plan standing = stiffened("cross_bars = { section = \"40x5\", long_side = \"standing\", at = [200] }");
  expect_box(standing, "cross bar 1", {5, 197.5, 0}, {979, 202.5, 40});
}

// Rails from left to right lie on bars from front to back.
TEST(CrossBars, RunAcrossTheRailsWhicheverWayTheseRun) {
  const Plan plan = stiffened("corners = \"butted\", cross_bars = { section = \"L 30x30x3\", at = [300] }",
                              {{"foot_strips = { width = 16 }", "foot_strips = { width = 16, sides = \"front back\" }"},
                               {", outer_width = 40", ""}});
  expect_box(plan, "cross bar 1", {285, 41, 10}, {315, 477, 40});
}

// On legs of 4 mm that point up the floor of the rails is at Z 4.
TEST(CrossBars, OnLegsThatPointUpLieBetweenThem) {
  const Plan plan = stiffened("cross_bars = { count = 1 }",
                              {{"bottom_legs = \"down\"", "bottom_legs = \"up\""}, {"top = 60", "top = 96"}});
  expect_box(plan, "cross bar 1", {41, 239, 0}, {943, 279, 4});
}

/// Whether the brace reaches into its box's low corner along both axes.
bool rises(const Plan& plan, const std::string& name) {
  const Instance& brace = *find_instance(plan, name);
  const Box3 bounds = box_of(plan, brace);
  const auto& outline = std::get<Flat>(plan.parts[brace.part].form).profile.outer.vertices;
  return std::any_of(outline.begin(), outline.end(), [&](const Vertex& v) {
    const Vec3 at = brace.pose.point({v.at.x, v.at.y, 0});
    const Vec3 off = at - bounds.low;
    return std::abs(off.z) < 1e-6 && (std::abs(off.x) < 1e-6 || bounds.size().x < 6) &&
           (std::abs(off.y) < 1e-6 || bounds.size().y < 6);
  });
}

Plan in_hand(const std::string& how) {
  const std::string base = R"(fitup = 1
[item.block]
size = [150, 430, 220]
mass = 23
foot_strips = { width = 16 }
[box.main]
row = [{ of = "block", count = 2 }]
clearance = { left = 8, right = 8, front = 44, back = 36, top = 60 }
frame = { section = "L 40x40x4", cross_bars = { section = "L 30x30x3", at = [180] }, gussets = {}, braces = { left = "rising", back = "falling" } }
)";
  const SpecResult read = test::read_files(
      {{"spec.toml", "start_from = \"base.toml\"\n" + (how.empty() ? "" : "opposite_hand = \"" + how + "\"\n")},
       {"base.toml", base}});
  EXPECT_TRUE(read.spec);
  if (!read.spec) return {};
  return make_plan(lay_out(*read.spec)).plan.value_or(Plan{});
}

// 518 deep: a bar with its middle at Y 180 and its heel before it stands at Y 338 with its heel behind it.
TEST(Stiffening, IsTurnedOverInTheOppositeHand) {
  const Plan first = in_hand("");
  EXPECT_NEAR(box(first, "cross bar 1").low.y, 165, 1e-6);
  EXPECT_NEAR(find_instance(first, "cross bar 1")->pose.origin().y, 165, 1e-6);
  EXPECT_TRUE(rises(first, "brace left"));
  EXPECT_FALSE(rises(first, "brace back"));
  const Plan deep = in_hand("front-back");
  EXPECT_NEAR(box(deep, "cross bar 1").low.y, 323, 1e-6);
  EXPECT_NEAR(find_instance(deep, "cross bar 1")->pose.origin().y, 353, 1e-6);
  EXPECT_FALSE(rises(deep, "brace left"));
  EXPECT_FALSE(rises(deep, "brace front"));
  EXPECT_EQ(instances_of(deep, Role::gusset).size(), 8U);
  const Plan across = in_hand("left-right");
  EXPECT_NEAR(find_instance(across, "cross bar 1")->pose.origin().y, 165, 1e-6);
  EXPECT_TRUE(rises(across, "brace right"));
  EXPECT_TRUE(rises(across, "brace back"));
}

// Leg 60, as thick as the uprights: the corner is cut off by 10, both tips by 4: 60^2 - 56^2 / 2 - 10^2 / 2 = 1982 mm2.
TEST(Gussets, AreOnePlateInEightCorners) {
  const Plan plan = stiffened("gussets = {}");
  const auto all = instances_of(plan, Role::gusset);
  ASSERT_EQ(all.size(), 8U);
  for (const Instance* gusset : all) EXPECT_EQ(gusset->part, all.front()->part);
  const Part& part = plan.parts[all.front()->part];
  EXPECT_EQ(part.mark, "GUS01");
  EXPECT_EQ(part.source, Source::cut);
  EXPECT_NEAR(volume_mm3(part), 1982 * 4, 1e-6);
  expect_box(plan, "gusset bottom front left", {0, 40, 40}, {4, 100, 100});
  expect_box(plan, "gusset top back right", {980, 418, 229}, {984, 478, 289});
  EXPECT_EQ(joined(plan, "gusset bottom front left"),
            (std::vector<std::string>{"bottom ring member left", "left plate", "upright front left"}));
}

TEST(Gussets, LeaveOutTheSideThatTheItemsGoInThrough) {
  const test::Planned planned = test::plan_text(R"(fitup = 1
[item.block]
size = [150, 430, 220]
mass = 23
foot_strips = { width = 16 }
[box.main]
row = [{ of = "block" }]
clearance = { left = 8, right = 8, front = 44, back = 44, top = 60 }
frame = { section = "L 40x40x4", gussets = {} }
face.left = { entry = true }
)");
  ASSERT_TRUE(planned.result.plan) << planned.said();
  const auto all = instances_of(*planned.result.plan, Role::gusset);
  EXPECT_EQ(all.size(), 4U);
  for (const Instance* gusset : all) EXPECT_GT(box_of(*planned.result.plan, *gusset).low.x, 100);
}

// Behind the front cover's flange of 30 + 2, and 5 + 1 from the other edges: W x H = 480 x 317. A strip of half width h
// along the diagonal of a rectangle cuts off two triangles, each ((d - h) / d)^2 of half the rectangle, d = W H / D.
TEST(Braces, AreAStripFromCornerToCornerCutAlongTheMembers) {
  const Plan plan = stiffened("braces = { left = \"rising\" }", {{left_plate, "left = {}"}});
  expect_box(plan, "brace left", {-5, 32, 6}, {0, 512, 323});
  const double w = 480;
  const double h = 317;
  const double d = w * h / std::hypot(w, h);
  const double kept = 1 - std::pow((d - 20) / d, 2);
  EXPECT_NEAR(volume_mm3(part_of(plan, "brace left")), 5 * w * h * kept, 1e-3);
  EXPECT_EQ(part_of(plan, "brace left").mark, "BRC01");
  // At Y 40, where the front upright ends, it is below Z 36; at Y 478, where the back one begins, it comes down to Z
  // 277.
  EXPECT_EQ(joined(plan, "brace left"),
            (std::vector<std::string>{"bottom ring member left", "top ring member left", "upright back left"}));
}

TEST(Braces, OfBothSlopesAreOnePartTurnedOver) {
  const Plan plan =
      stiffened("braces = { left = \"rising\", right = \"falling\" }",
                {{left_plate, "left = {}"}, {"right = { closed_by = \"plate\", thickness = 2 }", "right = {}"}});
  EXPECT_EQ(find_instance(plan, "brace left")->part, find_instance(plan, "brace right")->part);
}

// Walls of 5, not 4; 40 + 5 + 220 + 60 + 5 high.
TEST(TopSection, DecidesWallsHeightAndWhatHangsFromTheTop) {
  const Plan plan = stiffened("top_section = \"L 50x50x5\"",
                              {{"thickness = 2, screws = { thread = \"M4\", max_spacing = 90 }",
                                "thickness = 2, flange_depth = 32, screws = { thread = \"M4\", max_spacing = 90 }"}});
  EXPECT_EQ(plan.frame_size, (Vec3{986, 520, 330}));
  expect_box(plan, "top ring member front", {0, 0, 280}, {986, 50, 330});
  expect_box(plan, "bottom ring member front", {0, 0, 0}, {986, 40, 40});
  // Its root ends 5 + 7 from the outside: an M10 boss of 25 in a hole of 25.5 stands clear of it.
  ASSERT_FALSE(plan.lift_points.empty());
  EXPECT_EQ(plan.lift_points.front().at.x, std::ceil(12 + 12.5 + 0.25));
}

TEST(Sag, IsHalfwayBetweenFreeAndBuiltInEnds) {
  const double load = 236.4;
  const double span = 438;
  const double inertia = 112.5;
  const double stiffness = plan::steel_n_per_mm2 * inertia / (load * std::pow(span, 3));
  const double free_ends = 5.0 / 384;
  const double built_in = 1.0 / 384;
  EXPECT_NEAR(plan::sag_mm(load, span, inertia) * stiffness, (free_ends + built_in) / 2, 1e-12);
}

// Second moments of handbook tables to EN 10056-1, in cm4, from memory; root and toes make up to 5 percent.
TEST(Inertia, OfAnglesIsThatOfTheTables) {
  const auto cm4 = [](const char* name, Leg upright) {
    return plan::inertia_mm4(*tables::find_section(name), upright) * 1e-4;
  };
  EXPECT_NEAR(cm4("L 30x30x3", Leg::a), 1.40, 0.05 * 1.40);
  EXPECT_NEAR(cm4("L 40x40x4", Leg::b), 4.47, 0.05 * 4.47);
  EXPECT_NEAR(cm4("L 50x50x5", Leg::a), 11.0, 0.05 * 11.0);
  const Section& unequal = *tables::find_section("L 60x40x5");
  const Leg longer = unequal.leg_a_mm > unequal.leg_b_mm ? Leg::a : Leg::b;
  EXPECT_NEAR(cm4("L 60x40x5", longer), 17.2, 0.05 * 17.2);
  EXPECT_NEAR(cm4("L 60x40x5", longer == Leg::a ? Leg::b : Leg::a), 6.11, 0.05 * 6.11);
  EXPECT_NEAR(cm4("40x5", Leg::a), 40 * 40 * 40 * 5 / 12e4, 1e-9);
  EXPECT_NEAR(cm4("40x5", Leg::b), 40 * 125 / 12e4, 1e-9);
}

const Fit* rails_fit(const Plan& plan, const std::string& part) {
  for (const Fit& fit : plan.fits) {
    if (fit.check == "rails" && plan.instances[fit.parts.front()].name.starts_with(part)) return &fit;
  }
  return nullptr;
}

// Each inner rail carries half of two blocks and a plate; it is 50 x 5 and free between the legs, 518 - 80 = 438 mm.
TEST(Sag, OfTheDemosRailsIsWithinATwoHundredthOfTheirSpan) {
  const test::Planned planned = plan_demo();
  ASSERT_TRUE(planned.result.plan);
  const Fit* fit = rails_fit(*planned.result.plan, "rail");
  ASSERT_NE(fit, nullptr);
  const double load = (23.0 + 1.1) * 9.81;
  const double inertia = 50 * 125 / 12.0;
  EXPECT_NEAR(fit->value, 3 * load * std::pow(438, 3) / (384 * 210000 * inertia), 1e-6);
  EXPECT_NEAR(fit->limit, 4.38, 1e-9);
  EXPECT_LT(fit->value, 2.19);
}

// A bar in the middle takes half of what lies on either side of it, and what lies on itself: blocks from Y 48 to Y 478,
// plates from Y 48 to Y 458, legs to Y 40 and from Y 478, the bar from Y 246.5 to Y 271.5. The outer rails lie on the
// side members: their two of the twelve halves of the blocks are not the bar's.
TEST(Sag, OfABarCountsHalfOfBothFreeSpans) {
  const Plan plan = stiffened("cross_bars = { section = \"25x12\", at = [259] }");
  const Fit* fit = rails_fit(plan, "cross bar");
  ASSERT_NE(fit, nullptr);
  const double blocks = 5 * 23.0 * 9.81 / 430 * ((246.5 - 48 + 478 - 271.5) / 2.0 + 25);
  const double plates = 5 * 1.1 * 9.81 / 410 * ((246.5 - 48 + 458 - 271.5) / 2.0 + 25);
  const double inertia = 25 * std::pow(12, 3) / 12;
  EXPECT_NEAR(fit->value, 3 * (blocks + plates) * std::pow(904, 3) / (384 * 210000 * inertia), 1e-3);
}

TEST(Sag, CountsWhatStandsOnAnItem) {
  const auto value = [](const std::string& row) {
    const test::Planned planned = plan_demo({{"count = 6, between = \"thermal_plate\" }]", row},
                                             {"size = [\"gap\", 410, 200]", "size = [\"gap\", 410, 220]"}});
    EXPECT_TRUE(planned.result.plan) << planned.said();
    const Fit* fit = planned.result.plan ? rails_fit(*planned.result.plan, "rail") : nullptr;
    return fit != nullptr ? fit->value : 0;
  };
  const double one = value("count = 2 }]");
  const double two = value("count = 2 }, { of = \"block\", count = 2, level = 2 }]");
  EXPECT_GT(one, 0);
  EXPECT_NEAR(two, 2 * one, 1e-9);
}

// The brace's lower edge passes 0.006 mm from the corner of the front upright's foot, at Y 40 and Z 40: too little for
// a seam, so that it may touch there.
TEST(Braces, MayTouchAnUprightByACornerTooSmallForASeam) {
  const test::Planned planned = test::plan_text(R"(fitup = 1
[item.block]
size = [150, 300, 220]
mass = 20
foot_strips = { width = 16 }
[box.main]
row = [{ of = "block", count = 2, gap = 12 }]
clearance = { left = 10, right = 10, front = 44, back = 40, top = 60 }
frame = { section = "L 40x40x4", uprights = "40x4", braces = { left = "rising" } }
rails = { thickness = 5 }
[box.main.face]
front = { entry = true, closed_by = "cover", style = "flanged" }
back = { closed_by = "cover" }
right = { closed_by = "plate" }
)");
  ASSERT_TRUE(planned.result.plan) << planned.said();
  const Plan& plan = *planned.result.plan;
  const auto at_front = std::find_if(plan.joints.begin(), plan.joints.end(), [&](const Joint& joint) {
    return plan.instances[joint.a].name == "brace left" && plan.instances[joint.b].name == "upright front left";
  });
  ASSERT_NE(at_front, plan.joints.end());
  EXPECT_EQ(at_front->kind, JointKind::slip);
}

}  // namespace
}  // namespace fitup

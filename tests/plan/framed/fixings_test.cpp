// Nut strips, places of screws, items held by their own holes, earth studs, and what is bought for feet and guides.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <numbers>
#include <set>

#include "plan/framed/planned.h"
#include "plan/nut_strip.h"
#include "plan/screw_row.h"

namespace fitup {
namespace {

using test::box_of;
using test::find_instance;
using test::instances_of;
using test::plan_demo;
using test::plan_text;
using test::Planned;

constexpr const char* rods =
    "rods        = { thread = \"M6\", at = [[16, 24], [134, 24], [16, 196], [134, 196]], projection = 20 }";
constexpr const char* back_cover =
    "back  = { closed_by = \"cover\", style = \"flat\", thickness = 2, screws = { thread = \"M4\", max_spacing = 120 } "
    "}";

const Part* part_named(const Plan& plan, const std::string& name) {
  const auto found = std::find_if(plan.parts.begin(), plan.parts.end(), [&](const Part& p) { return p.name == name; });
  return found == plan.parts.end() ? nullptr : &*found;
}

// Common practice: one diameter in steel, two in aluminium.
TEST(Engagement, is_a_matter_of_the_material) {
  const Thread& m6 = *tables::find_thread("M6");
  for (const auto& [name, mm] : {std::pair{"S235JR", 6}, std::pair{"1.4301", 6}, std::pair{"6061-T6", 12}}) {
    EXPECT_EQ(plan::least_engagement_mm(m6, *tables::find_material(name)), mm) << name;
  }
}

// Two legs of 4, 2 mm, and half of the 4.5 that ISO 273 medium gives an M4.
TEST(Seams, keep_holes_off_by_the_legs_and_the_beads) {
  EXPECT_DOUBLE_EQ(plan::clear_of_seam_mm(4, 4.5), 12.25);
  EXPECT_DOUBLE_EQ(plan::clear_of_seam_mm(8, 4.5), 20.25);
}

TEST(NutStrips, are_as_thick_and_wide_as_the_thread_asks) {
  const Material& steel = *tables::find_material("S235JR");
  const auto m6 = plan::strip_hold(*tables::find_thread("M6"), nullptr, steel);
  EXPECT_DOUBLE_EQ(m6.engagement_mm, 6);
  EXPECT_DOUBLE_EQ(m6.seat_mm, 20);  // 18, rounded up to 5
  const auto quarter = plan::strip_hold(*tables::find_thread("1/4-20"), nullptr, steel);
  EXPECT_NEAR(quarter.engagement_mm, 6.35, 1e-9);  // 1/4 in
  EXPECT_NEAR(quarter.seat_mm, 19.05, 1e-9);       // 3/4 in
}

// From the end of the frame 20 mm, of a unified thread in sixteenths of an inch: 13, whatever units the spec is in.
TEST(Rows, begin_on_the_steps_of_their_thread) {
  const Planned metric = plan_demo();
  const Planned unified = plan_demo({{"screws = { thread = \"M4\", max_spacing = 120 }",
                                      "screws = { thread = \"#10-24\", max_spacing = 120, fixing = \"nut\" }"}});
  ASSERT_TRUE(metric.result.plan && unified.result.plan) << metric.said() << unified.said();
  const auto first_mm = [](const Planned& p) {
    return find_instance(*p.result.plan, "back cover screw bottom 1")->pose.origin().x;
  };
  EXPECT_NEAR(first_mm(metric), 20, 1e-9);
  EXPECT_NEAR(first_mm(unified), 13 * 25.4 / 16, 1e-9);
}

// 12 mm from the face of the frame; of nuts as far as half of the head of a ratchet for 7 mm, 12.5, in whole
// millimetres; or where the spec wants them.
TEST(Rows, of_a_flanged_cover_stand_where_their_nuts_are_reached) {
  const auto deep_mm = [](const std::string& screws) {
    const Planned p = plan_demo({{"max_spacing = 90 }", "max_spacing = 90" + screws + " }"}});
    EXPECT_TRUE(p.result.plan) << p.said();
    const Instance* screw = p.result.plan ? find_instance(*p.result.plan, "front cover screw left 1") : nullptr;
    return screw == nullptr ? 0 : screw->pose.origin().y;
  };
  EXPECT_NEAR(deep_mm(""), 12, 1e-9);
  EXPECT_NEAR(deep_mm(", fixing = \"nut\""), 13, 1e-9);
  EXPECT_NEAR(deep_mm(", fixing = \"locknut\""), 13, 1e-9);
  EXPECT_NEAR(deep_mm(", fixing = \"nut\", depth = 16"), 16, 1e-9);
}

// The row into the bottom member begins 20 from the frame's ends, 984 apart: its strip reaches 10 beyond its ends.
TEST(NutStrips, carry_a_whole_row) {
  const Planned p = plan_demo({{"style = \"flat\", thickness = 2, screws = { thread = \"M4\", max_spacing = 120 }",
                                "style = \"flat\", thickness = 2, landing_width = 24, screws = { thread = \"M6\", "
                                "max_spacing = 120, fixing = \"nut strip\" }"}});
  ASSERT_TRUE(p.result.plan) << p.said();
  const Plan& plan = *p.result.plan;
  const auto strips = instances_of(plan, Role::nut_strip);
  ASSERT_EQ(strips.size(), 4U);
  const Instance* bottom = find_instance(plan, "back cover screw bottom strip");
  ASSERT_NE(bottom, nullptr);
  const Vec3 size = box_of(plan, *bottom).size();
  EXPECT_NEAR(size.x, 964, 1e-9);
  EXPECT_NEAR(size.y, 6, 1e-9);
  EXPECT_NEAR(size.z, 20, 1e-9);
  std::size_t held = 0;
  for (const Fastener& fastener : plan.fasteners) {
    if (&plan.instances[fastener.stack.back()] != bottom) continue;
    EXPECT_NEAR(fastener.engagement_mm, 6, 1e-9);
    ++held;
  }
  EXPECT_EQ(held, std::get<Flat>(plan.parts[bottom->part].form).drilled.size());
  EXPECT_EQ(held, 9U);  // 944 in steps of at most 120
}

TEST(NutStrips, are_left_out_where_the_leg_holds_the_thread) {
  const Planned p = plan_demo({{"max_spacing = 120 }", "max_spacing = 120, fixing = \"nut strip\" }"}});
  ASSERT_TRUE(p.result.plan) << p.said();
  EXPECT_TRUE(instances_of(*p.result.plan, Role::nut_strip).empty());
}

TEST(PlacesOfScrews, are_taken_as_they_are_given) {
  const Planned p = plan_demo({{"max_spacing = 120 }", "max_spacing = 480, at = { bottom = [492, 440, 400] } }"}});
  ASSERT_TRUE(p.result.plan) << p.said();
  std::vector<double> found;
  for (const Instance& i : p.result.plan->instances) {
    if (i.name.rfind("back cover screw bottom ", 0) == 0) found.push_back(i.pose.origin().x);
  }
  EXPECT_THAT(found, testing::ElementsAre(testing::DoubleNear(400, 1e-9), testing::DoubleNear(440, 1e-9),
                                          testing::DoubleNear(492, 1e-9)));
}

// ISO 13920:1996, table 1, class B: 3 for sizes over 400 up to 1000, either way; the hole of an M4 is 4.5 wide.
TEST(Slots, reach_as_far_as_a_welded_frame_may_be_off) {
  const Planned p = plan_demo({{"max_spacing = 120 }", "max_spacing = 120, hole = \"slot\" }"}});
  ASSERT_TRUE(p.result.plan) << p.said();
  const Part* sheet = part_named(*p.result.plan, "back cover sheet");
  ASSERT_NE(sheet, nullptr);
  std::vector<double> lengths;
  for (const Loop& hole : std::get<Flat>(sheet->form).profile.holes) {
    const Vec2 size = hole.bounds().size();
    if (size.x > size.y + 0.1) lengths.push_back(size.x);
  }
  ASSERT_FALSE(lengths.empty());
  for (const double length : lengths) EXPECT_NEAR(length, 4.5 + 2 * 3, 1e-9);
}

// Six blocks of 150, 12 apart, 8 + 4 from the outside; the gap of 4 + 4 behind them is what the strips fill.
TEST(Mounts, in_the_back_hold_a_row_by_two_strips) {
  const Planned p = plan_demo({{rods,
                                "mounts = { face = \"back\", depth = 15, at = [[20, 40], [130, 40], [20, 180], "
                                "[130, 180]] }"},
                               {"back = 36", "back = 4"},
                               {back_cover, "back  = { closed_by = \"plate\", thickness = 2 }"}});
  ASSERT_TRUE(p.result.plan) << p.said();
  const Plan& plan = *p.result.plan;
  const auto strips = instances_of(plan, Role::mount_strip);
  ASSERT_EQ(strips.size(), 2U);
  for (const Instance* strip : strips) {
    const Box3 box = box_of(plan, *strip);
    EXPECT_NEAR(box.low.x, 12 + 20 - 15, 1e-9);  // half of 5 x 6 before the first hole
    EXPECT_NEAR(box.high.x, 12 + 5 * 162 + 130 + 15, 1e-9);
    EXPECT_NEAR(box.size().y, 8, 1e-9);
    EXPECT_NEAR(box.size().z, 30, 1e-9);
  }
  // Plate 2 and strip 8, then one diameter, 6: 16 is a stock length.
  std::size_t screws = 0;
  for (const Fastener& fastener : plan.fasteners) {
    if (plan.parts[plan.instances[fastener.stack.back()].part].role != Role::item) continue;
    EXPECT_THAT(plan.parts[plan.instances[fastener.screw].part].size, testing::HasSubstr("M6 x 16 "));
    ++screws;
  }
  EXPECT_EQ(screws, 24U);
  // An M6 is tapped through 5.
  const Part* block = part_named(plan, "block");
  ASSERT_NE(block, nullptr);
  EXPECT_NEAR(volume_mm3(*block), 150.0 * 430 * 220 - 4 * std::numbers::pi * 2.5 * 2.5 * 15, 1e-3);
}

TEST(Mounts, through_ears_go_into_strips_between_the_uprights) {
  const Planned p = plan_demo(
      {{rods, "mounts = { face = \"back\", ear = 3, at = [[20, 233], [130, 233]] }"}, {"back = 36", "back = 20"}});
  ASSERT_TRUE(p.result.plan) << p.said();
  const Plan& plan = *p.result.plan;
  const auto strips = instances_of(plan, Role::mount_strip);
  ASSERT_EQ(strips.size(), 1U);
  EXPECT_NEAR(box_of(plan, *strips[0]).size().x, 984 - 2 * 4, 1e-9);
  EXPECT_EQ(std::get<Flat>(plan.parts[strips[0]->part].form).drilled.size(), 12U);
}

std::string ears(const std::string& more) {
  return "mounts = { face = \"back\", ear = 3, at = [[20, 233], [130, 233]]" + more + " }";
}

// By rule strips are 5 thick and hold an M5, not an M6: one diameter (common practice).
TEST(Mounts, in_what_is_too_thin_for_a_thread_are_held_by_what_is_made_for_it) {
  const auto held = [](const std::string& more, const std::string& material, Role role) {
    const Planned p = plan_demo({{rods, ears(", strip_thickness = 4" + more)},
                                 {"back = 36", "back = 20"},
                                 {"uprights = \"40x4\" }", "uprights = \"40x4\"" + material + " }"}});
    EXPECT_TRUE(p.result.plan) << p.said();
    return p.result.plan ? instances_of(*p.result.plan, role).size() : 0;
  };
  EXPECT_EQ(held(", fixing = \"nut\"", "", Role::nut), 12U);
  EXPECT_EQ(held(", fixing = \"insert\"", "", Role::insert), 12U);
  EXPECT_EQ(held("", "", Role::nut), 12U);  // weld nuts
  EXPECT_EQ(held("", "", Role::insert), 0U);
}

// The gap of 0 + 4 behind the ears is what the strip fills; with the plate of 2 it is one diameter of M6.
TEST(Mounts, that_neither_strip_nor_plate_holds_are_tapped_through_both_as_one) {
  const Planned p = plan_demo(
      {{rods, ears("")}, {"back = 36", "back = 0"}, {back_cover, "back  = { closed_by = \"plate\", thickness = 2 }"}});
  ASSERT_TRUE(p.result.plan) << p.said();
  const Plan& plan = *p.result.plan;
  EXPECT_EQ(instances_of(plan, Role::nut).size(), 0U);
  for (const char* name : {"mount strip", "back plate"}) {
    const Part* part = part_named(plan, name);
    ASSERT_NE(part, nullptr) << name;
    const auto& drilled = std::get<Flat>(part->form).drilled;
    EXPECT_EQ(std::count_if(drilled.begin(), drilled.end(),
                            [](const DrilledHole& d) { return d.purpose == "tap M6 through both, once welded"; }),
              12)
        << name;
  }
  std::size_t through = 0;
  for (const Fastener& f : plan.fasteners) through += f.thread == "M6" && std::abs(f.engagement_mm - 6) < 1e-9 ? 1 : 0;
  EXPECT_EQ(through, 12U);
}

// Blocks held from below by M8 (hole 9 mm, head 14 mm), 20 mm in from their sides and 10 mm from legs of 40 x 4 mm
// whose toe is rounded by 3 mm (EN 10056-1): 34 mm from the outside the hole ends at 38.5 mm, 1.5 mm within the
// rounding; and with the screw 48 mm from the outside its head passes the leg with 1 mm.
TEST(Mounts, beside_a_legs_toe_name_the_clearances_that_have_room) {
  const auto with = [](const char* clearance) {
    const std::string text = R"(fitup = 1
name = "held"
units = "mm"
[item.module]
size = [175, 340, 215]
mass = 17.5
mounts = { face = "bottom", thread = "M8", depth = 16, at = [[20, 25], [155, 25], [20, 315], [155, 315]] }
[box.main]
row = [{ of = "module", count = 2, gap = 8 }]
frame = { section = "L 40x40x4", bottom_legs = "down", uprights = "40x4" }
clearance = { left = CLEAR, right = CLEAR, front = 60, back = 40, top = 100 }
)";
    std::string own = text;
    for (std::size_t at = own.find("CLEAR"); at != std::string::npos; at = own.find("CLEAR"))
      own.replace(at, 5, clearance);
    return plan_text(own);
  };
  const Planned p = with("10");
  EXPECT_THAT(p.said(), testing::HasSubstr("make box.main.clearance.left at most 8.5 mm or at least 24 mm"));
  EXPECT_THAT(with("8.5").said(), testing::Not(testing::HasSubstr("no-room-for-hole")));
  EXPECT_THAT(with("24").said(), testing::Not(testing::HasSubstr("no-room-for-hole")));
}

TEST(EarthStuds, stand_where_they_are_put) {
  const Planned p = plan_demo({{"left  = { closed_by = \"plate\", thickness = 2 }",
                                "left  = { closed_by = \"plate\", thickness = 2, earth = [{ at = [260, 160] }] }"}});
  ASSERT_TRUE(p.result.plan) << p.said();
  const Plan& plan = *p.result.plan;
  const auto studs = instances_of(plan, Role::stud);
  ASSERT_EQ(studs.size(), 1U);
  const Box3 box = box_of(plan, *studs[0]);
  // Lugs 5, washer 1.6 (ISO 7089), nut 9.5 (ISO 7040), two turns of 1.25: 18.6, rounded up to 5.
  EXPECT_NEAR(box.high.x, -2, 1e-9);
  EXPECT_NEAR(box.low.x, -2 - 20, 1e-9);
  EXPECT_NEAR(box.middle().y, 260, 1e-9);
  EXPECT_NEAR(box.middle().z, 160, 1e-9);
  EXPECT_THAT(plan.parts[studs[0]->part].size, testing::HasSubstr("with a washer and a nut"));
}

// The side plates of the demo are one part, but not where one of them gets a stud, or both at different places.
TEST(EarthStuds, TellPlatesApart) {
  const std::string plate = "{ closed_by = \"plate\", thickness = 2";
  const auto quantity = [&](const std::string& left, const std::string& right) {
    const Planned p = plan_demo({{"left  = " + plate + " }", "left  = " + plate + left + " }"},
                                 {"right = " + plate + " }", "right = " + plate + right + " }"}});
    EXPECT_TRUE(p.result.plan) << p.said();
    const auto plates = instances_of(*p.result.plan, Role::face_plate);
    std::set<PartId> parts;
    for (const Instance* one : plates) parts.insert(one->part);
    return parts.size();
  };
  EXPECT_EQ(quantity("", ""), 1U);
  EXPECT_EQ(quantity(", earth = [{ at = [260, 160] }]", ""), 2U);
  EXPECT_EQ(quantity(", earth = [{ at = [260, 160] }]", ", earth = [{ at = [200, 160] }]"), 2U);
}

// Where a row's screws stand does not hang on what holds them, each step is no longer than was asked, and the row is
// its own mirror image.
TEST(Rows, ofEachFixingStandAtTheSameEvenPlaces) {
  const auto places = [](const std::string& fixing) {
    const Planned p =
        plan_demo({{"thickness = 2, screws = { thread = \"M4\", max_spacing = 120 }",
                    "thickness = 2, screws = { thread = \"M4\", max_spacing = 120, fixing = \"" + fixing + "\" }"}});
    EXPECT_TRUE(p.result.plan) << p.said();
    std::vector<double> out;
    for (const Instance& i : p.result.plan->instances) {
      if (i.name.starts_with("back cover screw bottom") && p.result.plan->parts[i.part].role == Role::screw) {
        out.push_back(i.pose.origin().x);
      }
    }
    return out;
  };
  const std::vector<double> tapped = places("tapped");
  ASSERT_GT(tapped.size(), 5U);
  for (std::size_t i = 1; i < tapped.size(); ++i) EXPECT_LE(tapped[i] - tapped[i - 1], 120 + 1e-9);
  for (std::size_t i = 0; i < tapped.size(); ++i) EXPECT_NEAR(tapped[i] + tapped[tapped.size() - 1 - i], 984, 1e-9);
  for (const char* fixing : {"nut", "locknut", "weld nut", "insert", "nut strip"}) {
    EXPECT_EQ(places(fixing), tapped) << fixing;
  }
}

// An M6 thread needs 6 mm of steel (one diameter, common practice), and the legs are 4.
TEST(Fixing, not_stated_is_the_first_that_holds_where_a_thread_does_not) {
  const std::string m6 = "back  = { closed_by = \"cover\", style = \"flat\", thickness = 2, screws = { thread = \"M6\"";
  const Planned follows = plan_demo({{back_cover, m6 + " } }"}});
  ASSERT_TRUE(follows.result.plan) << follows.said();
  const Part* nut = part_named(*follows.result.plan, "weld nut");
  ASSERT_NE(nut, nullptr);
  EXPECT_THAT(nut->size, testing::StartsWith("M6"));
  ASSERT_EQ(follows.result.plan->followed.size(), 1U);
  const Followed& f = follows.result.plan->followed.front();
  EXPECT_EQ(f.key + " = " + f.value, "box.main.face.back.screws.fixing = weld nut");
  EXPECT_THAT(to_text(*follows.result.plan), testing::HasSubstr("not stated: " + f.key + " = " + f.value + ", as "));
  const Planned stated = plan_demo({{back_cover, m6 + ", fixing = \"tapped\" } }"}});
  EXPECT_THAT(stated.said(), testing::HasSubstr("[thread-too-short]"));
}

// No nut goes into a closed tube, whose wall of 3 mm is too thin for M4; rivet nuts go in from outside.
TEST(Fixing, not_stated_in_a_tube_is_a_rivet_nut) {
  const Planned p =
      plan_demo({{"section = \"L 40x40x4\", bottom_legs = \"down\", uprights = \"40x4\"", "section = \"SHS 50x50x3\""},
                 {"front = 44, back = 36", "front = 6, back = 6"},
                 {"front = \"bolted\", back = \"welded\"", "front = \"none\", back = \"none\""}});
  ASSERT_TRUE(p.result.plan) << p.said();
  EXPECT_NE(part_named(*p.result.plan, "rivet nut"), nullptr);
  EXPECT_EQ(part_named(*p.result.plan, "weld nut"), nullptr);
}

// Weld nuts hold on the landings beside wide uprights, in the rings nowhere: rivet nuts leave less to say.
TEST(Fixing, not_stated_is_what_leaves_the_fewest_rows_without_hold) {
  const Planned p = plan_demo({{"section = \"L 40x40x4\", bottom_legs = \"down\", uprights = \"40x4\"",
                                "section = \"SHS 30x30x2\", uprights = \"RHS 60x40x3\""},
                               {"front = \"bolted\", back = \"welded\"", "front = \"none\", back = \"none\""},
                               {"style = \"flanged\"", "style = \"flat\""},
                               {"[lifting]\nthread = \"M10\"\npoints = 4\n", ""}});
  ASSERT_TRUE(p.result.plan) << p.said();
  EXPECT_NE(part_named(*p.result.plan, "rivet nut"), nullptr);
  EXPECT_EQ(part_named(*p.result.plan, "weld nut"), nullptr);
}

// Plate 6 and grip 10, washers 2 x 1.6 (ISO 7089), nut 6.8 (ISO 4032), two turns of 1.25: 28.5; 30 is a stock length.
TEST(LooseHardware, of_feet_is_as_long_as_its_grip_asks) {
  for (const auto& [grip, words] :
       {std::pair{"grip = 10\n", "M8 x 30 for a grip of 16 mm"}, std::pair{"", "M8, length by what it is bolted to"}}) {
    const Planned p =
        plan_demo({{"[lifting]", std::string("[box.main.feet]\nthread = \"M8\"\n") + grip + "\n[lifting]"}});
    ASSERT_TRUE(p.result.plan) << p.said();
    const Part* bolt = part_named(*p.result.plan, "hexagon bolt for a foot");
    ASSERT_NE(bolt, nullptr);
    EXPECT_THAT(bolt->size, testing::StartsWith(words));
    EXPECT_EQ(bolt->loose_count, 4);
  }
}

TEST(LooseHardware, has_a_bush_for_each_hole_of_a_guide) {
  const Planned p = plan_demo({{"[lifting]", "[print]\nbush = 12\n\n[lifting]"}});
  ASSERT_TRUE(p.result.plan) << p.said();
  const Part* bush = part_named(*p.result.plan, "drill bush");
  ASSERT_NE(bush, nullptr);
  EXPECT_EQ(bush->loose_count, 4);
  EXPECT_THAT(bush->size, testing::HasSubstr("12 mm outside, for a 7 mm drill"));  // ISO 273 coarse of M6
}

}  // namespace
}  // namespace fitup

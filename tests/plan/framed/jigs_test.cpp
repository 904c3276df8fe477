// Printed aids against sizes worked out by hand from the demo's spec and the tables of threads and sections.
#include <gtest/gtest.h>

#include <algorithm>
#include <numbers>

#include "plan/framed/planned.h"
#include "plan/printed_part.h"

namespace fitup::test {
namespace {

constexpr double pi = std::numbers::pi;

const Part* part_of(const Plan& plan, Role role) {
  const auto found =
      std::find_if(plan.parts.begin(), plan.parts.end(), [role](const Part& p) { return p.role == role; });
  return found == plan.parts.end() ? nullptr : &*found;
}

const std::vector<Prism>& prisms(const Part& part) { return std::get<Solidform>(part.form).prisms; }

double height(const Part& part) {
  double mm = 0;
  for (const Prism& prism : prisms(part)) mm += prism.length_mm;
  return mm;
}

double radius(const Loop& loop) { return loop.as_circle().value_or(Circle{}).radius; }

Plan plan_of(const std::vector<std::pair<std::string, std::string>>& replacements = {},
             const std::vector<Override>& overrides = {}) {
  const Planned planned = plan_demo(replacements, overrides);
  EXPECT_TRUE(planned.result.plan) << planned.said();
  return planned.result.plan.value_or(Plan{});
}

// A rectangle moves in by the same on all sides; a rounded one keeps its centres, so that the radius shrinks; a circle
// likewise.
TEST(Inset, MovesEveryEdgeInwards) {
  EXPECT_EQ(plan::inset(Loop::rectangle({0, 0}, {10, 6}), 1), Loop::rectangle({1, 1}, {9, 5}));
  const Loop round = plan::inset(Loop::rounded_rectangle({0, 0}, {20, 12}, 4), 1);
  EXPECT_NEAR(round.area_mm2(), 18 * 10 - (4 - pi) * 3 * 3, 1e-9);
  EXPECT_NEAR(radius(plan::inset(Loop::circle({3, 4}, 5), -0.25)), 5.25, 1e-12);
}

// An L of 10 x 10 with arms 4 wide: 64 mm2; its inner corner moves the other way: 8 x 8 with arms 2 wide, 28 mm2.
TEST(Inset, TurnsAnInnerCornerTheOtherWay) {
  const Loop angle = Loop::polygon({{0, 0}, {10, 0}, {10, 4}, {4, 4}, {4, 10}, {0, 10}});
  EXPECT_NEAR(angle.area_mm2(), 64, 1e-12);
  EXPECT_NEAR(plan::inset(angle, 1).area_mm2(), 28, 1e-12);
}

// Demo: M6 rods (major 6) in loose holes of 7 (ISO 273 coarse), plates 3 thick, fit 0.2, hole allowance 0.2.
TEST(Jigs, TheRodBushFitsRodAndHole) {
  const Plan plan = plan_of();
  const Part* bush = part_of(plan, Role::rod_bush);
  ASSERT_NE(bush, nullptr);
  EXPECT_EQ(bush->loose_count, 4);
  const Prism& sleeve = prisms(*bush).back();
  EXPECT_NEAR(2 * radius(sleeve.profile.outer), 6.8, 1e-9);
  EXPECT_NEAR(2 * radius(sleeve.profile.holes.at(0)), 6.2, 1e-9);
  EXPECT_NEAR(sleeve.length_mm, 3, 1e-9);
  EXPECT_NEAR(height(*bush), 2 + 3, 1e-9);
}

// In a medium hole of 6.6 nothing is left between 6.4 and 6.2 that could be printed.
TEST(Jigs, NoRodBushWhereNoWallIsLeft) {
  EXPECT_EQ(part_of(plan_of({{"clearance_hole = \"loose\", ", ""}}), Role::rod_bush), nullptr);
}

// 0.1 on both sides of a hole of 7 (ISO 273 coarse): it is drilled 7.2, and the bush centres in that, less the fit.
TEST(Jigs, AreMadeToTheHolesAsTheyAreDrilledBeforeTheCoat) {
  const Plan plan = plan_of({{"[lifting]", "[finish]\nkind = \"powder\"\nthickness = 0.1\n[lifting]"}});
  const Part* guide = part_of(plan, Role::drill_guide);
  ASSERT_NE(guide, nullptr);
  EXPECT_EQ(guide->size, "4 holes for a 7.2 mm drill");
  const Part* bush = part_of(plan, Role::rod_bush);
  ASSERT_NE(bush, nullptr);
  EXPECT_NEAR(2 * radius(prisms(*bush).back().profile.outer), 7.0, 1e-9);
}

// The rods stick out by 20; an M6 nut is up to 5.2 high (ISO 4032): its outer face stands 14.8 from the rod's end.
TEST(Jigs, TheNutGaugeIsFlushWithTheRod) {
  const Plan plan = plan_of();
  const Part* gauge = part_of(plan, Role::nut_gauge);
  ASSERT_NE(gauge, nullptr);
  EXPECT_NEAR(height(*gauge), 14.8, 1e-9);
  EXPECT_NEAR(2 * radius(prisms(*gauge).back().profile.holes.at(0)), 6.2, 1e-9);
}

// L 40x40x4 has a root radius of 6 (EN 10056-1): the upper edge is set in by 6.5, and no part of it is nearer.
TEST(Jigs, TheCornerSquareClearsTheRoot) {
  const Plan plan = plan_of();
  const Part* square = part_of(plan, Role::corner_square);
  ASSERT_NE(square, nullptr);
  const Box2 whole = prisms(*square)[1].profile.bounds();
  const Box2 upper = prisms(*square).back().profile.bounds();
  EXPECT_NEAR(prisms(*square).back().length_mm, 6.5, 1e-9);
  EXPECT_NEAR(upper.low.x - whole.low.x, 6.5, 1e-9);
  EXPECT_NEAR(upper.low.y - whole.low.y, 6.5, 1e-9);
  EXPECT_NEAR(whole.size().x, whole.size().y, 1e-9);
  EXPECT_NEAR(whole.size().x, 100, 1e-9);  // less than 0.4 of 329
}

// The flange's screws at the front stand from 30 to 954 mm along a member of 984 mm, in 11 steps of 84; M4 is tapped
// after a drill of 3.3 (ISO 2306, from memory) and drawn 0.2 wider. The lip's face is the member's edge.
TEST(Jigs, ARowGuideStepsFromHoleToHole) {
  const Plan plan = plan_of();
  int as_the_flange = 0;
  for (const Part& part : plan.parts) {
    if (part.role != Role::row_guide) continue;
    EXPECT_EQ(part.loose_count, 1);
    const auto& plate = prisms(part)[1].profile;
    const auto& lip = prisms(part).back();
    ASSERT_EQ(plate.holes.size(), 2U);
    const Vec2 first = plate.holes[0].bounds().middle();
    const Vec2 second = plate.holes[1].bounds().middle();
    EXPECT_NEAR(first.y, second.y, 1e-9);
    EXPECT_NEAR(lip.profile.bounds().high.y, 0, 1e-9);
    EXPECT_NEAR(lip.length_mm, 4, 1e-9);  // no lower than the leg is thick
    if (std::abs(second.x - first.x - 84) > 1e-9) continue;
    ++as_the_flange;
    EXPECT_NEAR(2 * radius(plate.holes[0]), 3.5, 1e-9);
    const auto in_row = [&](const Part& p) {
      const auto* member = std::get_if<Member>(&p.form);
      if (member == nullptr) return std::ptrdiff_t{0};
      return std::count_if(member->holes.begin(), member->holes.end(), [&](const MemberHole& hole) {
        return std::abs(hole.across_mm - first.y) < 1e-9 && hole.diameter_mm == 3.3;
      });
    };
    EXPECT_TRUE(std::any_of(plan.parts.begin(), plan.parts.end(), [&](const Part& p) { return in_row(p) == 12; }));
  }
  EXPECT_EQ(as_the_flange, 1);
}

// Screws up to 400 mm apart: what is longer than a printer's plate of 220 mm (common practice) is not made.
TEST(Jigs, NoRowGuideIsLongerThanAPrinterReaches) {
  const Plan plan = plan_of({{"max_spacing = 90", "max_spacing = 400"}, {"max_spacing = 120", "max_spacing = 400"}});
  for (const Part& part : plan.parts) {
    if (part.role != Role::row_guide) continue;
    EXPECT_LE(prisms(part)[1].profile.bounds().size().x, 220);
  }
}

// Only the front cover is flanged; its gap is 2 by default: 1.8 thick, two under each of three flanges.
TEST(Jigs, ShimsFillTheGapUnderEachFlange) {
  const Plan plan = plan_of();
  const Part* shim = part_of(plan, Role::shim);
  ASSERT_NE(shim, nullptr);
  EXPECT_EQ(shim->loose_count, 6);
  EXPECT_NEAR(height(*shim), 1.8, 1e-9);
  // A fit of 1.7 leaves 0.3, less than a nozzle lays down.
  EXPECT_EQ(part_of(plan_of({}, {{"print.fit", "1.7"}}), Role::shim), nullptr);
}

// Six blocks with an empty gap of 12 between them: five spacers of 11.8.
TEST(Jigs, AnEmptyGapHasItsSpacersToo) {
  const Plan plan = plan_of({{"between = \"thermal_plate\"", "gap = 12"}});
  const Part* spacer = part_of(plan, Role::spacer);
  ASSERT_NE(spacer, nullptr);
  EXPECT_EQ(spacer->loose_count, 5);
  EXPECT_NEAR(height(*spacer), 11.8, 1e-9);
}

// A bush of 12 outside (DIN 179 for drills up to 8, from memory) is pressed into a hole drawn 12.2.
TEST(Jigs, AGuideTakesTheBushesThatTheSpecNames) {
  const Plan plan = plan_of({}, {{"print.bush", "12"}});
  const Part* guide = part_of(plan, Role::drill_guide);
  ASSERT_NE(guide, nullptr);
  EXPECT_NEAR(2 * radius(prisms(*guide).back().profile.holes.back()), 12.2, 1e-9);
  EXPECT_NE(guide->size.find("in bushes of 12 mm outside"), std::string::npos) << guide->size;
  const Planned small = plan_demo({}, {{"print.bush", "8"}});
  EXPECT_NE(small.said().find("leaves no wall round a drill of 7 mm; make print.bush at least 9 mm"), std::string::npos)
      << small.said();
}

// The first 0.4 mm are set in all round, holes included; without the allowance a part is one prism.
TEST(Jigs, TheFirstLayersAreSetIn) {
  const Plan with = plan_of({}, {{"print.first_layer", "0.3"}});
  const auto& layers = prisms(*part_of(with, Role::nut_gauge));
  ASSERT_EQ(layers.size(), 2U);
  EXPECT_NEAR(layers[0].length_mm, 0.4, 1e-12);
  EXPECT_NEAR(layers[1].profile.bounds().size().x - layers[0].profile.bounds().size().x, 0.6, 1e-9);
  EXPECT_NEAR(radius(layers[0].profile.holes[0]) - radius(layers[1].profile.holes[0]), 0.3, 1e-9);
  EXPECT_EQ(prisms(*part_of(plan_of({}, {{"print.first_layer", "0"}}), Role::nut_gauge)).size(), 1U);
}

}  // namespace
}  // namespace fitup::test

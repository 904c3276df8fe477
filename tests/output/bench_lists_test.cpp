// The cut list and the list of bought parts against what stands in the sample, worked out by hand.
#include "output/bench_lists.h"
#include "output/grade.h"

#include <gtest/gtest.h>

#include <map>

#include "output/member_words.h"
#include "output/sample.h"

namespace fitup::output {
namespace {

const PaperUnits metric(UnitSystem::mm_kg);

std::map<std::string, std::string> row(const std::vector<CsvRow>& rows, std::size_t index) {
  std::map<std::string, std::string> fields;
  for (std::size_t i = 0; i < rows.front().size(); ++i) fields[rows.front()[i]] = rows.at(index).at(i);
  return fields;
}

TEST(CutList, HasSectionLengthEndsAndMassOfEachSawnPart) {
  const auto rows = cut_rows(sample::plan(), sample::model(), sample::info());
  ASSERT_EQ(rows.size(), 2U);
  auto angle = row(rows, 1);
  EXPECT_EQ(angle["mark"], "ANG01");
  EXPECT_EQ(angle["quantity"], "1");
  EXPECT_EQ(angle["section"], "L 40x40x4");
  EXPECT_EQ(angle["length mm"], "300");
  EXPECT_EQ(angle["start cut mm"], "square");
  EXPECT_EQ(angle["end cut mm"], "square");
  EXPECT_EQ(angle["holes mm"], "");
  // EN 10056-1: L 40x40x4 weighs 2.42 kg/m; 0.3 m of it.
  EXPECT_EQ(angle["mass kg each"], "0.726");
  EXPECT_EQ(angle["job"] + angle["revision"] + angle["spec"], "small-boxBaaaaaaaaaaaa");
}

Section angle_section() { return *tables::find_section("L 40x40x4"); }

TEST(CutList, SaysWhatAnEndLosesLegByLeg) {
  const LegCut gone{{{0, 40, 36}}, {}};
  const LegCut notched{{{0, 5, 36}, {5, 40, 0}}, {{5, CornerKind::chamfer, 5}}};
  EXPECT_EQ(end_words({gone, notched, {}}, angle_section(), metric),
            "leg A removed for 36 from the end; leg B: back 36 over 0 to 5 from the heel, corner at 5 as a chamfer 5 x "
            "45 degrees");
  const LegCut rounded{{{0, 10, 12.5}, {10, 40, 0}}, {{10, CornerKind::radius, 3}}};
  const LegCut square{{{0, 40, 0}}, {}};
  EXPECT_EQ(end_words({square, rounded, {}}, angle_section(), metric),
            "leg B: back 12.5 over 0 to 10 from the heel, corner at 10 with radius 3");
  EXPECT_EQ(end_words({square, square, Leg::b}, angle_section(), metric),
            "mitre 45 degrees through both legs, long at the heel, shorter along leg B");
}

TEST(CutList, GroupsHolesByLegFenceAndDrill) {
  Member member;
  member.section = angle_section();
  member.holes = {{Leg::b, 110, 20, 3.3, HoleKind::tapped, "tap M4"},
                  {Leg::b, 30, 20, 3.3, HoleKind::tapped, "tap M4"},
                  {Leg::a, 50, 23, 25.5, HoleKind::clear, "lift boss"}};
  EXPECT_EQ(hole_words(member, metric),
            "leg A, 23 from the heel: 1 hole, 25.5 wide (lift boss), at 50 from the start; leg B, 20 from the heel: 2 "
            "holes, drill 3.3, tap M4, at 30, 110 from the start");
}

TEST(CutList, PutsHolesOfOnePrintedDistanceOnOneLine) {
  Member member;
  member.section = angle_section();
  member.holes = {{Leg::a, 95, 20 + 1e-7, 3.3, HoleKind::tapped, "tap M4"},
                  {Leg::a, 10, 110, 3.3, HoleKind::tapped, "tap M4"},
                  {Leg::a, 33, 20 - 1e-7, 3.3, HoleKind::tapped, "tap M4"}};
  EXPECT_EQ(
      hole_words(member, metric),
      "leg A, 20 from the heel: 2 holes, drill 3.3, tap M4, at 33, 95 from the start; leg A, 110 from the heel: 1 "
      "hole, drill 3.3, tap M4, at 10 from the start");
}

TEST(CutList, SaysOnPaperWhereHolesStandAsATapeMeasuresThem) {
  Member member;
  member.section = angle_section();
  for (const double mm : {30.0, 123.66666667, 217.33333333}) {
    member.holes.push_back({Leg::b, mm, 20, 3.3, HoleKind::tapped, "tap M4"});
  }
  EXPECT_EQ(hole_words(member, metric, Along::by_tape),
            "leg B, 20 from the heel: 3 holes, drill 3.3, tap M4, at 30, 123.7, 217.3 from the start");
  EXPECT_EQ(hole_words(member, metric),
            "leg B, 20 from the heel: 3 holes, drill 3.3, tap M4, at 30, 123.667, 217.333 from the start");
  EXPECT_EQ(hole_words(member, PaperUnits(UnitSystem::in_lb), Along::by_tape),
            "leg B, 0.7874 from the heel: 3 holes, drill 3.3 mm, tap M4, at 1.181, 4.869, 8.556 from the start");
}

// Holes count from the start, and leg A lies to the right only for who looks at the other end.
TEST(CutList, SaysWhichCutFacesTheReader) {
  Member member;
  member.section = angle_section();
  EXPECT_EQ(reading_words(member),
            "seen with the end cut towards you and the start cut away from you, the heel at the lower left: leg A lies "
            "to the right, leg B stands up");
  member.section.shape = SectionShape::flat;
  EXPECT_EQ(reading_words(member), "");
  member.holes = {{Leg::a, 33, 20, 3.3, HoleKind::tapped, "tap M4"}};
  EXPECT_EQ(reading_words(member),
            "seen with the end cut towards you and the start cut away from you, the thickness below: widths count from "
            "the left");
}

TEST(BoughtList, HasHardwareByMarkThenEyesThenTheItemsApart) {
  Plan plan = sample::plan();
  Part nut;
  nut.mark = "NUT-M6";
  nut.name = "hexagon nut";
  nut.source = Source::bought;
  nut.size = "M6 ISO 4032";
  nut.mass_kg = 0.0025;
  nut.form = Solidform{};
  plan.parts.push_back(nut);
  Instance place;
  place.part = plan.parts.size() - 1;
  plan.instances.insert(plan.instances.end(), 4, place);
  plan.lift_points = {{0, {}, "M10"}, {0, {}, "M10"}};
  const auto rows = bought_rows(plan, sample::model(), sample::info());
  ASSERT_EQ(rows.size(), 4U);
  auto bought = row(rows, 1);
  EXPECT_EQ(bought["kind"] + " " + bought["mark"] + " " + bought["size"], "bought NUT-M6 M6 ISO 4032");
  EXPECT_EQ(bought["grade"], "class 8, zinc plated");
  EXPECT_EQ(bought["quantity"], "4");
  EXPECT_EQ(bought["mass kg total"], "0.01");
  auto eye = row(rows, 2);
  EXPECT_EQ(eye["description"] + " " + eye["size"] + " " + eye["quantity"], "lifting eye M10 DIN 580 2");
  auto item = row(rows, 3);
  EXPECT_EQ(item["kind"] + " " + item["mark"] + " " + item["quantity"], "item ITM01 1");
  EXPECT_EQ(item["size"], "100 x 80 x 60 mm");
}

std::string grade(const std::string& mark, const std::string& size, Hardware hardware, std::string_view bolts = "4.6") {
  Plan plan;
  for (const BoltClass& one : bolt_classes) {
    if (one.word == bolts) plan.load_rules.bolts = one;
  }
  Part part;
  part.source = Source::bought;
  part.mark = mark;
  part.size = size;
  return grade_words(plan, part, hardware);
}

// ISO 898-1 and -2, ISO 3506-1, ISO 7380-1 (a 0 before the class of a head that bears less), ISO 7089 (200 HV); SAE
// J429: grade 5 has 120 ksi, 827 MPa, and is as strong as class 8.8 (from memory).
TEST(Grade, IsWhatAShopOrders) {
  EXPECT_EQ(grade("SCR-M4x8", "M4 x 8 ISO 7380-1", Hardware::zinc_plated), "class 010.9, zinc plated");
  EXPECT_EQ(grade("SCR-M4x8", "M4 x 8 ISO 7380-1", Hardware::a2), "A2-070");
  EXPECT_EQ(grade("NUT-M6", "M6 ISO 4032", Hardware::a4), "A4-70");
  EXPECT_EQ(grade("NUT-M6", "M6 ISO 4032, class 5", Hardware::zinc_plated), "zinc plated");
  EXPECT_EQ(grade("WSH-M6", "M6 ISO 7089", Hardware::plain), "200 HV, plain");
  EXPECT_EQ(grade("WLN-M4", "M4 DIN 929", Hardware::zinc_plated), "steel for welding, plain");
  EXPECT_EQ(grade("BLT-M8", "M8, length by what it is bolted to", Hardware::zinc_plated, "8.8"),
            "class 8.8, zinc plated");
  EXPECT_EQ(grade("BLT-M8", "M8, length by what it is bolted to", Hardware::zinc_plated, "A2-70"), "class A2-70");
  EXPECT_EQ(grade("BLT-3/8-16", "3/8-16", Hardware::plain, "8.8"), "SAE J429 grade 5, plain");
  EXPECT_EQ(grade("ROD-M6x470", "M6 x 470 mm DIN 976-1, class 8.8", Hardware::zinc_plated), "");
  EXPECT_EQ(grade("SCR-1/4-20x0.5", "1/4-20 x 0.5 in ASME B18.3", Hardware::a2), "stainless 304");
  EXPECT_EQ(grade("EYE-M10", "M10 DIN 580", Hardware::zinc_plated), "");
}

}  // namespace
}  // namespace fitup::output

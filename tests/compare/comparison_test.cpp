// Two short lists of parts set side by side: what follows can be said by hand.
// Entry: gtest.
#include "compare/comparison.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

namespace fitup::compare {
namespace {

using output::PartLine;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;

PartLine flat(const std::string& mark, const std::string& name, std::array<double, 3> size_mm, std::size_t quantity) {
  PartLine line;
  line.mark = mark;
  line.name = name;
  line.role = "face plate";
  line.source = "cut";
  line.material = "S235JR";
  line.form = "flat";
  line.size_mm = size_mm;
  line.quantity = quantity;
  line.mass_kg = size_mm[0] * size_mm[1] * size_mm[2] * 7850e-9;
  line.cut_mm = 2 * (size_mm[1] + size_mm[2]);
  line.piercings = 1;
  line.shape = line.mirrored = line.outline =
      std::to_string(size_mm[0]) + " " + std::to_string(size_mm[1]) + " " + std::to_string(size_mm[2]);
  return line;
}

PartLine member(const std::string& mark, double length_mm, const std::string& shape, const std::string& mirrored) {
  PartLine line;
  line.mark = mark;
  line.name = "ring member";
  line.role = "ring member";
  line.source = "sawn";
  line.material = "S235JR";
  line.form = "member";
  line.section = "L 40x40x4";
  line.size_mm = {length_mm};
  line.sawn_mm = length_mm;
  line.quantity = 1;
  line.shape = shape;
  line.mirrored = mirrored;
  line.outline = shape;
  return line;
}

PartLine bought(const std::string& size, std::size_t quantity) {
  PartLine line;
  line.mark = "SCR-" + size;
  line.name = "button-head screw";
  line.role = "screw";
  line.source = "bought";
  line.form = "solid";
  line.size = size;
  line.quantity = quantity;
  line.shape = line.mirrored = line.outline = size;
  return line;
}

Side side(std::vector<PartLine> lines) {
  Side out;
  out.name = "box";
  out.parts.parts = std::move(lines);
  return out;
}

Change only_change(const Side& a, const Side& b) {
  const Comparison both = compared(a, b);
  EXPECT_EQ(both.changes.size(), 1U);
  return both.changes.empty() ? Change{} : both.changes.front();
}

double total(const Comparison& comparison, const std::string& key, double Total::*of) {
  for (const Total& t : comparison.totals) {
    if (t.key == key) return t.*of;
  }
  ADD_FAILURE() << "no total " << key;
  return 0;
}

std::vector<std::string> words(const Change& change, UnitSystem units = UnitSystem::mm_kg) {
  return differences(change, units);
}

TEST(Comparison, OfAJobWithItselfFindsNothing) {
  const Side a =
      side({flat("PLT01", "side plate", {2, 325, 486}, 2), member("ANG01", 984, "s", "s"), bought("M4 x 8", 9)});
  EXPECT_TRUE(compared(a, a).nothing_differs());
  EXPECT_THAT(comparison_text(compared(a, a), a, a, UnitSystem::mm_kg, false), HasSubstr("nothing differs"));
  EXPECT_THAT(comparison_text(compared(a, a), a, a, UnitSystem::mm_kg, true), IsEmpty());
}

TEST(Comparison, APartWhoseMarkAndNameAloneChangedIsTheSame) {
  const Side a = side({flat("PLT01", "side plate", {2, 325, 486}, 2)});
  const Side b = side({flat("PLT07", "end plate", {2, 325, 486}, 2)});
  EXPECT_TRUE(compared(a, b).nothing_differs());
}

TEST(Comparison, AThickerPlateIsTheSamePlateChanged) {
  const Side a = side({flat("PLT01", "side plate", {2, 325, 486}, 2)});
  const Side b = side({flat("PLT01", "side plate", {3, 325, 486}, 2)});
  const Change change = only_change(a, b);
  EXPECT_EQ(change.kind, ChangeKind::changed);
  EXPECT_THAT(words(change), ElementsAre("2 x 325 x 486 -> 3 x 325 x 486 mm"));
  EXPECT_THAT(words(change, UnitSystem::in_lb),
              ElementsAre("0.0787 x 12.7953 x 19.1339 -> 0.1181 x 12.7953 x 19.1339 in"));
  const Comparison both = compared(a, b);
  // 325 x 486 x 1 mm of steel of 7850 kg/m3, twice
  EXPECT_NEAR(total(both, "mass_to_make_kg", &Total::b) - total(both, "mass_to_make_kg", &Total::a), 2.479815, 1e-9);
  EXPECT_DOUBLE_EQ(total(both, "cut_mm", &Total::a), 2 * 2 * (325 + 486));
  EXPECT_DOUBLE_EQ(total(both, "cut_mm", &Total::b), total(both, "cut_mm", &Total::a));
}

TEST(Comparison, ATallerBarAndAnotherSectionAreSaidWithBothSizes) {
  PartLine b = member("ANG01", 822, "short", "short");
  b.section = "L 50x50x5";
  EXPECT_THAT(words(only_change(side({member("ANG01", 984, "long", "long")}), side({b}))),
              ElementsAre("L 40x40x4 x 984 -> L 50x50x5 x 822 mm"));
}

TEST(Comparison, OfTwoPlatesThatGrewEachIsMatchedWithItsOwn) {
  const Side a = side({flat("PLT01", "top plate", {2, 500, 900}, 1), flat("PLT02", "side plate", {2, 325, 486}, 1)});
  const Side b = side({flat("PLT01", "side plate", {2, 325, 500}, 1), flat("PLT02", "top plate", {2, 500, 980}, 1)});
  const Comparison both = compared(a, b);
  ASSERT_EQ(both.changes.size(), 2U);
  for (const Change& change : both.changes) EXPECT_EQ(change.a->name, change.b->name);
}

TEST(Comparison, APartMoreIsACountAndAnUnlikeOneIsAddedOrGone) {
  const Side a = side({flat("PLT01", "side plate", {2, 325, 486}, 2)});
  const Side b = side({flat("PLT01", "side plate", {2, 325, 486}, 3), flat("PLT02", "lid", {2, 30, 900}, 1)});
  const Comparison both = compared(a, b);
  ASSERT_EQ(both.changes.size(), 2U);
  EXPECT_EQ(both.changes[0].kind, ChangeKind::count);
  EXPECT_THAT(words(both.changes[0]), ElementsAre("2 -> 3 pieces"));
  EXPECT_EQ(both.changes[1].kind, ChangeKind::added);
  EXPECT_EQ(both.changes[1].b->mark, "PLT02");
  EXPECT_EQ(total(both, "parts_to_make", &Total::a), 2);
  EXPECT_EQ(total(both, "parts_to_make", &Total::b), 4);
  EXPECT_EQ(total(both, "kinds_to_make", &Total::b), 2);
  EXPECT_EQ(compared(b, a).changes[1].kind, ChangeKind::gone);
}

TEST(Comparison, HolesAreToldByKindAndCountAndElseByTheirPlace) {
  PartLine a = flat("PLT01", "lid", {2, 100, 200}, 1);
  a.holes = {{"hole", "", {4.5, 4.5}, 12}, {"drilled hole", "tap M4", {3.3, 3.3}, 2}};
  PartLine b = a;
  b.shape = b.mirrored = "b";
  b.holes = {{"hole", "", {4.5, 4.5}, 14}, {"cut-out", "", {60, 20}, 1}, {"drilled hole", "tap M4", {3.3, 3.3}, 2}};
  EXPECT_THAT(words(only_change(side({a}), side({b}))),
              testing::UnorderedElementsAre("hole 4.5 mm: 12 -> 14", "cut-out 60 x 20 mm: 0 -> 1"));
  PartLine moved = a;
  moved.shape = moved.mirrored = "moved";
  EXPECT_THAT(words(only_change(side({a}), side({moved}))), ElementsAre("holes stand elsewhere"));
  PartLine notched = a;
  notched.shape = notched.mirrored = notched.outline = "notched";
  EXPECT_THAT(words(only_change(side({a}), side({notched}))), ElementsAre("outline differs"));
  // A drill is named in millimetres in every list.
  b.holes = {{"hole", "", {4.5, 4.5}, 12}};
  EXPECT_THAT(words(only_change(side({a}), side({b})), UnitSystem::in_lb),
              ElementsAre("drilled hole 3.3 mm, tap M4: 2 -> 0"));
}

TEST(Comparison, AMirrorImageIsTheOtherHandAndNoOtherPart) {
  const Change change =
      only_change(side({member("ANG01", 984, "left", "right")}), side({member("ANG02", 984, "right", "left")}));
  EXPECT_EQ(change.kind, ChangeKind::other_hand);
  EXPECT_THAT(words(change), IsEmpty());
}

TEST(Comparison, HardwareIsToldByWhatIsOrdered) {
  const Change change = only_change(side({bought("M4 x 8 ISO 7380-1", 26)}), side({bought("M5 x 12 ISO 7380-1", 30)}));
  EXPECT_THAT(words(change), ElementsAre("M4 x 8 ISO 7380-1 -> M5 x 12 ISO 7380-1", "26 -> 30 pieces"));
}

TEST(Comparison, TheSamePartsInOtherPlacesAreSaidToBeThere) {
  PartLine a = flat("PLT01", "side plate", {2, 325, 486}, 2);
  PartLine b = a;
  b.places = "elsewhere";
  const Comparison both = compared(side({a}), side({b}));
  EXPECT_FALSE(both.nothing_differs());
  EXPECT_EQ(both.changes.at(0).kind, ChangeKind::elsewhere);
}

TEST(Comparison, PartsOfOneShapeUnderSeveralMarksCountTogether) {
  const Side a = side({flat("PLT01", "plate", {2, 325, 486}, 1), flat("PLT02", "plate", {2, 325, 486}, 2)});
  const Side b = side({flat("PLT01", "plate", {2, 325, 486}, 3)});
  const Comparison both = compared(a, b);
  for (const Change& change : both.changes) EXPECT_EQ(change.kind, ChangeKind::elsewhere);
}

double priced(const Comparison& both, const std::string& key) { return total(both, key, &Total::a); }

// Two plates of 2 x 325 x 486: 4.95963 kg, 3.244 m of contour, two piercings; nine screws; 2.5 m of seam.
TEST(Comparison, CostsAreOfWhatHasAPriceAlone) {
  Side a = side({flat("PLT01", "side plate", {2, 325, 486}, 2), bought("M4 x 8", 9), bought("M5 x 8", 3)});
  a.parts.seams.laid_mm = 2000;
  a.parts.seams.ground_flush_mm = 500;
  for (const Total& row : compared(a, a).totals) EXPECT_NE(row.measure, Measure::money) << row.key;
  a.prices = Prices{"EUR", 2, 1.5, 0.25, 10, {{"M4 x 8", 0.1}}};
  // Without prices of its own the other side is reckoned with these.
  Side b = a;
  b.prices.reset();
  const Comparison both = compared(a, b);
  EXPECT_TRUE(both.nothing_differs());
  EXPECT_NEAR(priced(both, "cost_of_material"), 2 * 4.95963, 1e-9);
  EXPECT_NEAR(priced(both, "cost_of_cutting"), 1.5 * 3.244, 1e-9);
  EXPECT_NEAR(priced(both, "cost_of_piercing"), 0.5, 1e-9);
  EXPECT_NEAR(priced(both, "cost_of_welding"), 25, 1e-9);
  EXPECT_NEAR(priced(both, "cost_of_bought_parts"), 0.9, 1e-9);
  EXPECT_NEAR(priced(both, "cost"), 2 * 4.95963 + 1.5 * 3.244 + 0.5 + 25 + 0.9, 1e-9);
  EXPECT_EQ(priced(both, "bought_without_price"), 3);
  b.parts.parts[0].quantity = 1;
  EXPECT_THAT(comparison_text(compared(a, b), a, b, UnitSystem::mm_kg, false),
              testing::ContainsRegex("cost of material, EUR +9\\.92 +4\\.96 +-4\\.96\n"));
  a.prices = Prices{"EUR", 2, {}, {}, {}, {}};
  for (const Total& row : compared(a, b).totals) EXPECT_STRNE(row.key, "cost_of_cutting");
}

/// What is added is gone, and each change is read backwards.
void expect_mirrored(const Side& a, const Side& b) {
  const Comparison there = compared(a, b);
  const Comparison back = compared(b, a);
  ASSERT_EQ(there.changes.size(), back.changes.size());
  for (std::size_t i = 0; i < there.changes.size(); ++i) {
    EXPECT_EQ(there.changes[i].a, back.changes[i].b) << i;
    EXPECT_EQ(there.changes[i].b, back.changes[i].a) << i;
    const bool both = there.changes[i].a && there.changes[i].b;
    EXPECT_TRUE(!both || there.changes[i].kind == back.changes[i].kind) << i;
  }
  for (std::size_t i = 0; i < there.totals.size(); ++i) {
    EXPECT_EQ(there.totals[i].a, back.totals[i].b);
    EXPECT_EQ(there.totals[i].b, back.totals[i].a);
  }
}

TEST(Comparison, ReadBackwardsIsTheComparisonTheOtherWayRound) {
  // Four plates of one name on either side, none alike: pairs must not depend on which side is asked first.
  std::vector<PartLine> a;
  std::vector<PartLine> b;
  for (int i = 0; i < 4; ++i) {
    a.push_back(flat("PLT0" + std::to_string(i), "plate", {2, 100.0 + 10 * i, 200}, 1));
    b.push_back(flat("PLT0" + std::to_string(3 - i), "plate", {2, 105.0 + 10 * i, 200}, 1));
  }
  b.push_back(bought("M4 x 8", 3));
  a.push_back(member("ANG01", 984, "left", "right"));
  b.push_back(member("ANG01", 984, "right", "left"));
  expect_mirrored(side(a), side(b));
  a.pop_back();
  expect_mirrored(side(a), side(b));
}

TEST(Comparison, AsTextHasItsColumnsUnderEachOtherAndItsSumsInTheUnitsAsked) {
  Side a = side({flat("PLT01", "side plate", {2, 325, 486}, 2)});
  Side b = side({flat("PLT01", "side plate", {3, 325, 486}, 2)});
  a.path = "a.toml";
  b.path = "longer-name.toml";
  const std::string text = comparison_text(compared(a, b), a, b, UnitSystem::mm_kg, false);
  EXPECT_THAT(text, HasSubstr("  A  a.toml            box, spec\n  B  longer-name.toml  box, spec\n"));
  EXPECT_THAT(text, HasSubstr("\nchanged\n  PLT01  side plate  2 x 325 x 486 -> 3 x 325 x 486 mm\n"));
  EXPECT_THAT(text, testing::ContainsRegex("mass to make, kg +4\\.96 +7\\.439 +\\+2\\.48\n"));
  EXPECT_THAT(text, testing::ContainsRegex("cut length, mm +3244 +3244\n"));
  EXPECT_THAT(text, Not(HasSubstr("weld seams")));
}

TEST(Comparison, AsJsonHasBothPartsOfAChangeAndNullWhereThereIsNone) {
  const Side a = side({flat("PLT01", "side plate", {2, 325, 486}, 2)});
  const auto json = nlohmann::json::parse(comparison_json(compared(a, side({})), a, side({})));
  EXPECT_FALSE(json["same"]);
  EXPECT_EQ(json["changes"][0]["kind"], "gone");
  EXPECT_EQ(json["changes"][0]["a"]["mark"], "PLT01");
  EXPECT_TRUE(json["changes"][0]["b"].is_null());
}

}  // namespace
}  // namespace fitup::compare

// Specs that are planned and compared: what one key changes, opposite hands, laws.
// Entry: gtest.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <filesystem>
#include <set>

#include "checks/planned.h"
#include "compare/read_side.h"

namespace fitup::compare {
namespace {

using testing::Contains;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;

std::string demo_path() { return std::string(FITUP_EXAMPLES) + "/park-locomotive/front-box.toml"; }

Side demo(const std::vector<Override>& overrides = {}, const std::string& more = {}) {
  const auto made = test::planned(demo_path(), test::text_of(demo_path()) + more, overrides);
  EXPECT_TRUE(made->plan);
  return made->plan ? side_of(*made->plan, JobInfo{}, "demo") : Side{};
}

std::vector<Change> of_kind(const Comparison& both, ChangeKind kind) {
  std::vector<Change> out;
  for (const Change& change : both.changes) {
    if (change.kind == kind) out.push_back(change);
  }
  return out;
}

double growth(const Comparison& both, const std::string& key) {
  for (const Total& total : both.totals) {
    if (total.key == key) return total.b - total.a;
  }
  ADD_FAILURE() << "no total " << key;
  return 0;
}

std::vector<Override> thicker_sides() {
  return {{"box.main.face.left.thickness", "3"}, {"box.main.face.right.thickness", "3"}};
}

TEST(PlannedComparison, OfTheDemoWithItselfFindsNothing) {
  EXPECT_TRUE(compared(demo(), demo()).nothing_differs());
  // Respelled: the same in inches.
  EXPECT_TRUE(compared(demo(), demo({{"gap", "0.4724409449 in"}})).nothing_differs());
}

// The side plates are 486 x 325 mm (README of the order list): 1 mm more on two of them.
TEST(PlannedComparison, ThickerSidesChangeTheSidePlatesAndNothingElseThatIsMade) {
  const Comparison both = compared(demo(), demo(thicker_sides()));
  const auto changed = of_kind(both, ChangeKind::changed);
  ASSERT_EQ(changed.size(), 1U);
  EXPECT_EQ(changed[0].a->name, "side plate");
  EXPECT_THAT(differences(changed[0], UnitSystem::mm_kg), ElementsAre("2 x 325 x 486 -> 3 x 325 x 486 mm"));
  EXPECT_THAT(of_kind(both, ChangeKind::added), IsEmpty());
  EXPECT_THAT(of_kind(both, ChangeKind::gone), IsEmpty());
  EXPECT_NEAR(growth(both, "mass_to_make_kg"), 2 * 325 * 486 * 1 * 7850e-9, 1e-9);
  EXPECT_NEAR(growth(both, "mass_kg"), growth(both, "mass_to_make_kg"), 1e-9);
  EXPECT_NEAR(growth(both, "cut_mm"), 0, 1e-9);
  EXPECT_EQ(growth(both, "piercings"), 0);
  // The covers in front of and behind them are wider still.
  EXPECT_FALSE(both.sizes_differ);
}

// One side alone: one plate of two stays.
TEST(PlannedComparison, OneThickerSideIsOnePlateLessAndOneThatIsAdded) {
  const Comparison both = compared(demo(), demo({{"box.main.face.left.thickness", "3"}}));
  const auto count = of_kind(both, ChangeKind::count);
  ASSERT_EQ(count.size(), 1U);
  EXPECT_THAT(differences(count[0], UnitSystem::mm_kg), ElementsAre("2 -> 1 pieces"));
  const auto added = of_kind(both, ChangeKind::added);
  ASSERT_EQ(added.size(), 1U);
  EXPECT_EQ(added[0].b->size_mm, (std::array<double, 3>{3, 325, 486}));
}

// A sixth rail wider by 5: the outer rails are 40 x 506 of 5 mm, two of them.
TEST(PlannedComparison, WiderOuterRailsAreTheRailsChanged) {
  const Comparison both = compared(demo(), demo({{"box.main.rails.outer_width", "42"}}));
  const auto changed = of_kind(both, ChangeKind::changed);
  ASSERT_EQ(changed.size(), 1U);
  EXPECT_THAT(differences(changed[0], UnitSystem::mm_kg), ElementsAre("5 x 40 x 506 -> 5 x 42 x 506 mm"));
  EXPECT_NEAR(growth(both, "mass_to_make_kg"), 2 * 2 * 506 * 5 * 7850e-9, 1e-9);
  EXPECT_NEAR(growth(both, "cut_mm"), 2 * 2 * 2, 1e-9);
}

// In a spec in inches a price is for a pound and a foot: of the same box the same sum.
TEST(PlannedComparison, PricesFollowTheUnitsOfTheirSpec) {
  const std::string prices = "\n[prices]\nmaterial = 2\ncut = 1.5\nbought = [{ part = \"SCR-M4x8\", each = 0.1 }]\n";
  const auto metric = read_prices(demo_path(), test::text_of(demo_path()) + prices);
  ASSERT_TRUE(metric);
  EXPECT_DOUBLE_EQ(*metric->per_kg, 2);
  ASSERT_EQ(metric->bought.size(), 1U);
  EXPECT_EQ(metric->bought[0].part, "SCR-M4x8");
  const std::string inches = std::string(FITUP_EXAMPLES) + "/orchard-sprayer/battery-box.toml";
  const auto imperial = read_prices(inches, test::text_of(inches) + prices, {{"prices.material", "3"}});
  ASSERT_TRUE(imperial);
  EXPECT_DOUBLE_EQ(*imperial->per_kg, 3 / 0.45359237);
  EXPECT_DOUBLE_EQ(*imperial->per_m_cut, 1.5 / 0.3048);
  EXPECT_FALSE(imperial->per_piercing);
  EXPECT_FALSE(read_prices(demo_path(), test::text_of(demo_path())));
}

std::string in_the_other_hand(const std::string& of) {
  return "fitup = 1\nname = \"other\"\ntitle = \"other\"\nrevision = \"A\"\nunits = \"mm\"\nstart_from = \"" + of +
         "\"\nopposite_hand = \"left-right\"\n";
}

Side planned_side(const std::string& text, const SpecFiles& files) {
  const auto made = test::planned("other.toml", text, {}, files);
  EXPECT_TRUE(made->plan) << (made->diagnostics.all().empty() ? "" : made->diagnostics.all().front().message);
  return made->plan ? side_of(*made->plan, JobInfo{}, "other") : Side{};
}

/// The demo with the screws of its front cover at places that differ from left to right.
std::string lopsided_demo() {
  std::string text = test::text_of(demo_path());
  const std::string screws = "screws = { thread = \"M4\", max_spacing = 90 }";
  const auto at = text.find(screws);
  EXPECT_NE(at, std::string::npos);
  text.replace(at, screws.size(),
               "screws = { thread = \"M4\", at = { top = [60, 300, 700], bottom = [60, 300, 700] } }");
  return text;
}

TEST(PlannedComparison, OfOppositeHandsTellsWhichMembersChangedHand) {
  const SpecFiles files = [](const std::string&) -> Result<std::string> { return lopsided_demo(); };
  const auto as_it_is = test::planned("box.toml", lopsided_demo());
  ASSERT_TRUE(as_it_is->plan) << as_it_is->diagnostics.all().front().message;
  const Side a = side_of(*as_it_is->plan, JobInfo{}, "a");
  const Side b = planned_side(in_the_other_hand("box.toml"), files);
  const Comparison both = compared(a, b);
  const auto hands = of_kind(both, ChangeKind::other_hand);
  // The upper and the lower member that the front cover is screwed to, its sheet and its top flange, which are marked
  // on one face; what is not marked is turned over instead.
  std::multiset<std::string> names;
  for (const Change& change : hands) names.insert(change.a->name);
  EXPECT_EQ(names,
            (std::multiset<std::string>{"front cover sheet", "front ring member", "front ring member", "top flange"}));
  EXPECT_THAT(of_kind(both, ChangeKind::changed), IsEmpty());
  EXPECT_THAT(of_kind(both, ChangeKind::added), IsEmpty());
  EXPECT_THAT(of_kind(both, ChangeKind::gone), IsEmpty());
  for (const Total& total : both.totals) EXPECT_FALSE(total.differs()) << total.key;
  // A folder keeps no hand: what its parts say is told all the same, from either side, and of nothing else.
  EXPECT_TRUE(both.opposite_hands());
  EXPECT_TRUE(compared(b, a).opposite_hands());
  EXPECT_FALSE(compared(a, a).opposite_hands());
  EXPECT_THAT(comparison_text(both, a, b, UnitSystem::mm_kg, false), HasSubstr("by what changed B is A in the opposite hand"));
  const auto wider = test::planned("box.toml", lopsided_demo(), {{"box.main.clearance.left", "20"}});
  ASSERT_TRUE(wider->plan);
  EXPECT_FALSE(compared(b, side_of(*wider->plan, JobInfo{}, "wider")).opposite_hands());
}

// Of plates, with items that stand out of the middle both ways: all that is marked with an arrow has it too in the
// mirror.
TEST(PlannedComparison, OfOppositeHandsOfABoxOfPlatesTellsNoOtherPart) {
  const std::string plates = std::string(FITUP_EXAMPLES) + "/park-locomotive/front-box-plate.toml";
  const std::vector<Override> lopsided{{"box.main.clearance.left", "20"}, {"box.main.clearance.front", "60"}};
  const auto as_it_is = test::planned(plates, test::text_of(plates), lopsided);
  ASSERT_TRUE(as_it_is->plan) << as_it_is->diagnostics.all().front().message;
  const Side a = side_of(*as_it_is->plan, JobInfo{}, "a");
  for (const char* hand : {"left-right", "front-back"}) {
    const std::string text =
        "fitup = 1\nname = \"front-box-plate\"\nstart_from = \"one-hand.toml\"\nopposite_hand = \"" +
        std::string(hand) + "\"\n";
    const SpecFiles files = [&](const std::string& name) -> Result<std::string> {
      if (!name.ends_with("one-hand.toml"))
        return test::text_of(std::filesystem::path(plates).parent_path() / "front-box.toml");
      return test::text_of(plates) + "clearance = { left = 20, right = 8, front = 60, back = 36, top = 60 }\n";
    };
    const auto other = test::planned(plates, text, {}, files);
    ASSERT_TRUE(other->plan) << other->diagnostics.all().front().message;
    const Comparison both = compared(a, side_of(*other->plan, JobInfo{}, "b"));
    std::set<std::string> hands;
    for (const Change& change : of_kind(both, ChangeKind::other_hand)) hands.insert(change.a->name);
    EXPECT_THAT(hands, Contains("floor")) << hand;
    for (const ChangeKind kind : {ChangeKind::changed, ChangeKind::added, ChangeKind::gone}) {
      for (const Change& c : of_kind(both, kind)) {
        // Items keep their own front, and with it the windows for their connectors.
        if (std::string_view(hand) == "front-back" && (c.a ? c.a : c.b)->role == "rod plate") continue;
        ADD_FAILURE() << hand << ": " << to_text(kind) << " " << (c.a ? c.a : c.b)->name;
      }
    }
  }
}

TEST(PlannedComparison, ReadBackwardsIsTheComparisonTheOtherWayRound) {
  for (const auto& overrides : std::vector<std::vector<Override>>{{{"gap", "13"}},
                                                                  thicker_sides(),
                                                                  {{"box.main.row.1.count", "4"}},
                                                                  {{"box.main.frame.section", "L 50x50x5"}}}) {
    const Side a = demo();
    const Side b = demo(overrides);
    const Comparison there = compared(a, b);
    const Comparison back = compared(b, a);
    EXPECT_FALSE(there.nothing_differs());
    ASSERT_EQ(there.changes.size(), back.changes.size()) << overrides[0].key;
    for (std::size_t i = 0; i < there.changes.size(); ++i) {
      EXPECT_EQ(there.changes[i].a, back.changes[i].b);
      EXPECT_EQ(there.changes[i].b, back.changes[i].a);
    }
  }
}

// Every part of one side is in exactly one change or the same on the other: numbers of pieces add up.
TEST(PlannedComparison, AccountsForEveryPiece) {
  const Side a = demo();
  const Side b = demo({{"box.main.row.1.count", "4"}});
  double pieces = 0;
  for (const auto& line : b.parts.parts) pieces += static_cast<double>(line.quantity);
  for (const auto& line : a.parts.parts) pieces -= static_cast<double>(line.quantity);
  for (const Change& change : compared(a, b).changes) {
    if (change.b) pieces -= static_cast<double>(change.b->quantity);
    if (change.a) pieces += static_cast<double>(change.a->quantity);
  }
  EXPECT_EQ(pieces, 0);
}

}  // namespace
}  // namespace fitup::compare

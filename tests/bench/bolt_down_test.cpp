// Where the whole is bolted down, against sizes worked out by hand from the examples' specs.
#include "bench/bolt_down.h"

#include <gtest/gtest.h>

#include "bench/assembly_sheet.h"
#include "bench/planned.h"
#include "bench/type.h"
#include "fitup/seams.h"

namespace fitup::bench {
namespace {

// Four lugs of 50 mm behind the uprights of a frame 448 wide and 569 high, 10 mm from its lower and upper edge: their
// middles are at 10 + 25 and 569 - 35; the back plate of 2 mm lies on the frame of 262 less its own 2, the lugs of 6 mm
// on it: 262 + 3. Left and right mirror each other.
TEST(BoltHoles, AreTheMiddlesOfTheLugsHoles) {
  const Planned made = planned("cabin-inverter/cabinet.toml");
  ASSERT_TRUE(made.plan);
  const auto holes = bolt_holes(*made.plan);
  ASSERT_EQ(holes.size(), 4U);
  for (std::size_t i = 0; i < 4; ++i) {
    EXPECT_NEAR(holes[i].from_datum.z, i % 2 == 0 ? 35 : 534, 1e-9);
    EXPECT_NEAR(holes[i].from_datum.y, 265, 1e-9);
    EXPECT_NEAR(holes[i].size.x, 9, 1e-9);  // M8, ISO 273 medium
  }
  EXPECT_NEAR(holes[0].from_datum.x + holes[2].from_datum.x, 448, 1e-9);
  EXPECT_LT(holes[0].from_datum.x, 0);
}

// A slot of 20 for M8 is 9 wide and 29 long, in a cleat as in a plate.
TEST(BoltHoles, OfCleatsWithSlotsSayBothSizes) {
  Plan plan;
  Part cleat;
  cleat.mark = "FOT01";
  cleat.role = Role::foot;
  const Section* section = tables::find_section("L 50x50x5");
  ASSERT_NE(section, nullptr);
  Member member{*section, 60, {}, {}, {{Leg::a, 30, 31, 9, HoleKind::clear, "bolt M8", false, 20}}};
  cleat.form = member;
  plan.parts.push_back(cleat);
  Instance foot;
  foot.name = "foot 1";
  plan.instances.push_back(foot);
  const auto holes = bolt_holes(plan);
  ASSERT_EQ(holes.size(), 1U);
  EXPECT_NEAR(holes[0].size.x, 29, 1e-9);
  EXPECT_NEAR(holes[0].size.y, 9, 1e-9);
  EXPECT_EQ(bolt_hole_table(plan, holes, output::PaperUnits(UnitSystem::mm_kg)).rows.at(0).cells.at(1), "29 x 9");
}

TEST(BoltHoles, AreNoneWithoutFeetOrLugs) {
  const Planned made = planned("park-locomotive/front-box.toml");
  ASSERT_TRUE(made.plan);
  EXPECT_TRUE(bolt_holes(*made.plan).empty());
}

// What the list for the welder has in a column of its own is said where the welder works: the side, and the bevel.
TEST(AssemblySheetOf, SaysSideAndBevelOfEachSeam) {
  const auto& [made, model] = modelled("cabin-inverter/cabinet.toml");
  ASSERT_TRUE(made.plan);
  const auto paper = assembly_paper(*made.plan, model, JobInfo{}, Type{});
  ASSERT_TRUE(paper);
  std::string words;
  for (const Page& page : paper->pages) {
    for (const Label& label : page.labels) words += label.words + " ";
  }
  std::size_t bevels = 0;
  for (const Seam& seam : seams_of(*made.plan).all) bevels += seam.bevel_mm > 0 ? 1 : 0;
  EXPECT_GT(bevels, 0U);
  EXPECT_NE(words.find("bevel 2 first, ground flush"), std::string::npos);
  EXPECT_NE(words.find("inside right, rising up"), std::string::npos);
  EXPECT_NE(words.find("mark its screw holes through"), std::string::npos);  // transferred: the default
  EXPECT_NE(words.find("When it is closed"), std::string::npos);
}

}  // namespace
}  // namespace fitup::bench

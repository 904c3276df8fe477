// What goes in through a face past what stands in its opening for good: nuts that hold the cover's screws, and members
// that stand up at the bottom. Each value that a message names lets it in.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <utility>

#include <fmt/format.h>

#include "fitup/tables.h"
#include "plan/framed/planned.h"

namespace fitup {
namespace {

using test::plan_demo;
using test::plan_text;
using test::Planned;
using testing::HasSubstr;
using testing::Not;

using Replacements = std::vector<std::pair<std::string, std::string>>;

// The demo's front screws stand in uprights of flat bar 4 mm thick, which are 976 mm apart.
Replacements front_screws(const std::string& screws) {
  return {{R"(screws = { thread = "M4", max_spacing = 90 })", "screws = { " + screws + ", max_spacing = 90 }"}};
}

TEST(RodPlatePastNuts, IsRefusedWhereWeldNutsStandFartherInThanItsEdges) {
  const Planned planned = plan_demo(front_screws(R"(thread = "M4", fixing = "weld nut")"));
  const double left = 976 - 2 * tables::find_weld_nut("M4")->height_mm;
  EXPECT_THAT(planned.said(), HasSubstr("[rod-plate-does-not-pass]"));
  EXPECT_THAT(planned.said(),
              HasSubstr(fmt::format("974 mm wide and 210 mm high; the opening that it goes in through is "
                                    "{} mm wide",
                                    left)));
  EXPECT_THAT(planned.said(), HasSubstr(R"(set box.main.face.front.screws.fixing to "tapped")"));
  EXPECT_THAT(planned.said(), Not(HasSubstr("weld the plate"))) << "the items go in there";
  EXPECT_TRUE(plan_demo(front_screws(R"(thread = "M4", fixing = "tapped")")).result.plan);
}

TEST(RodPlatePastNuts, IsToldTheThickestThreadThatTheUprightHolds) {
  const Planned planned = plan_demo(front_screws(R"(thread = "M6", fixing = "insert")"));
  EXPECT_THAT(planned.said(), HasSubstr(R"(fixing to "tapped" and box.main.face.front.screws.thread to "M4")"));
}

TEST(RodPlatePastNuts, IsToldAThreadOfTheSameSeries) {
  // 4.1656 mm in 3/16 in, which a #10 of 4.826 mm is too thick for (ASME B1.1).
  const Planned planned = plan_demo(front_screws(R"(thread = "1/4-20", fixing = "insert")"),
                                    {{"box.main.frame.section", "L 1-1/2x1-1/2x3/16 in"},
                                     {"box.main.frame.uprights", "1-1/2x3/16 in"},
                                     {"box.main.face.front.gap", "3"}});
  EXPECT_THAT(planned.said(), HasSubstr(R"(fixing to "tapped" and box.main.face.front.screws.thread to "#8-32")"));
}

// Nuts that are put on with the cover are not there yet.
TEST(RodPlatePastNuts, PassesWhereTheNutsAreLoose) {
  const Planned planned = plan_demo(front_screws(R"(thread = "M4", fixing = "nut")"));
  EXPECT_THAT(planned.said(), Not(HasSubstr("[rod-plate-does-not-pass]")));
}

// A block between walls of 5 mm, its nuts of M6 in uprights as thick.
std::string beside_rivet_nuts(double left_mm, double right_mm = 20) {
  return fmt::format(R"(fitup = 1
name = "case"
units = "mm"
[item.block]
size = [120, 200, 120]
mass = 3
foot_strips = {{ width = 16 }}
[box.main]
row = [{{ of = "block", count = 2, gap = 5 }}]
clearance = {{ left = {}, right = {}, front = 44, back = 36, top = 60 }}
frame = {{ section = "L 50x50x5", uprights = "50x5" }}
[box.main.face]
front = {{ entry = true, closed_by = "cover", style = "flanged", thickness = 2, screws = {{ thread = "M6", max_spacing = 150, fixing = "insert" }} }}
)",
                     left_mm, right_mm);
}

// 1 mm of air beside what is put in by hand (common practice).
TEST(ItemPastNuts, KeepsAirFromARivetNutBesideItsWay) {
  const double least = tables::find_rivet_nut("M6")->behind_mm + 1;
  const Planned planned = plan_text(beside_rivet_nuts(8));
  EXPECT_THAT(planned.said(), HasSubstr("[item-does-not-pass]"));
  EXPECT_THAT(planned.said(), HasSubstr(fmt::format("give a clearance at the left of at least {} mm", least)));
  EXPECT_THAT(plan_text(beside_rivet_nuts(8, 8)).said(),
              HasSubstr(fmt::format(" and at the right of at least {} mm", least)));
  EXPECT_TRUE(plan_text(beside_rivet_nuts(least)).result.plan) << plan_text(beside_rivet_nuts(least)).said();
  EXPECT_FALSE(plan_text(beside_rivet_nuts(least - 0.1)).result.plan);
  EXPECT_THAT(plan_text(beside_rivet_nuts(20, 8)).said(),
              HasSubstr(fmt::format("give a clearance at the right of at least {} mm", least)));
}

// Legs of 40 that stand up; rods 30 long, of which 30 - 5.2 (nut M6, ISO 4032) go on through the plate at the back.
Replacements over_legs(const std::string& front, const std::string& legs = "up") {
  return {{"projection = 20", "projection = 30"},
          {R"(bottom_legs = "down")", "bottom_legs = \"" + legs + "\""},
          {"front = 44", "front = " + front},
          {"top = 60", "top = 120"},
          {"[lifting]\nthread = \"M10\"\npoints = 4\n", ""}};
}

// Before the leg, 4 mm thick, are the clearance and the wall of 4 less the rods: 44 + 4 - 30 = 18; needed are 4 + 24.8.
TEST(ItemOverSill, ComesDownBehindItBeforeItsRodsAreInThePlateAtTheBack) {
  const Planned planned = plan_demo(over_legs("44"));
  EXPECT_THAT(planned.said(), HasSubstr("[item-does-not-pass]"));
  EXPECT_THAT(planned.said(), HasSubstr(R"(set box.main.frame.bottom_legs to "down")"));
  EXPECT_THAT(planned.said(), HasSubstr("give a clearance at the front of at least 54.8 mm"));
  EXPECT_THAT(plan_demo(over_legs("54.8")).said(), Not(HasSubstr("does-not-pass")));
  EXPECT_THAT(plan_demo(over_legs("54.7")).said(), HasSubstr("[item-does-not-pass]"));
  EXPECT_THAT(plan_demo(over_legs("44", "down")).said(), Not(HasSubstr("does-not-pass")));
}

// Two strips 15 mm wide beside the uprights leave less than the plate is wide; round the frame they leave all of it.
TEST(RodPlatePastStrips, IsToldOfStripsRoundTheFrame) {
  const Planned planned = plan_demo({{R"(style = "flanged")", R"(style = "flat", landing = "inward")"}});
  EXPECT_THAT(planned.said(), HasSubstr(R"(set box.main.face.front.landing to "outward")"));
  const Planned outward =
      plan_demo({{R"(style = "flanged")", R"(style = "flat", landing = "outward", landing_width = 35)"}});
  EXPECT_THAT(outward.said(), Not(HasSubstr("does-not-pass")));
}

// A flanged cover at the left laps the frame where those strips would stand: an outward landing is refused there.
TEST(RodPlatePastStrips, IsToldOfNoStripsRoundTheFrameWhereACoverBesideItLapsThem) {
  const auto beside_flange = [](const std::string& front) {
    return plan_demo({{R"(style = "flanged")", front},
                      {R"(left  = { closed_by = "plate", thickness = 2 })",
                       R"(left  = { closed_by = "cover", style = "flanged", thickness = 2 })"}});
  };
  const Planned inward = beside_flange(R"(style = "flat", landing = "inward")");
  EXPECT_THAT(inward.said(), HasSubstr("[rod-plate-does-not-pass]"));
  EXPECT_THAT(inward.said(), HasSubstr(R"(set box.main.face.front.style to "flanged")"));
  EXPECT_THAT(inward.said(), Not(HasSubstr(R"(to "outward")")));
  EXPECT_THAT(beside_flange(R"(style = "flat", landing = "outward", landing_width = 35)").said(),
              HasSubstr("[landing-over-neighbour]"));
  EXPECT_THAT(beside_flange(R"(style = "flanged")").said(), Not(HasSubstr("does-not-pass")));
}

// Strips in the opening would shut the rod plate out, and screws of a flat cover at the left would meet its return
// flange: neither is a way out of the other refusal.
TEST(LandingOverAFlange, IsToldOnlyOfWhatPlans) {
  const auto with = [](const std::string& front, const std::string& left) {
    return plan_demo(
        {{R"(style = "flanged")", front},
         {R"(closed_by = "cover", style = "flat", thickness = 2, screws = { thread = "M4", max_spacing = 120 })",
          R"(closed_by = "open")"},
         {R"(left  = { closed_by = "plate", thickness = 2 })",
          R"(left  = { closed_by = "cover", style = ")" + left + R"(", thickness = 2 })"}});
  };
  const std::string outward = R"(style = "flat", landing = "outward", landing_width = 35)";
  EXPECT_THAT(with(outward, "flanged").said(),
              HasSubstr("of the left cover laps the frame; choose style = \"flanged\" without a landing for the front "
                        "cover, which holds no seal [landing-over-neighbour]"));
  EXPECT_TRUE(with(R"(style = "flanged")", "flanged").result.plan);
  EXPECT_FALSE(with(R"(style = "flat", landing = "inward")", "flanged").result.plan);
  EXPECT_FALSE(with(outward, "flat").result.plan);
}

TEST(RodPlatePastStrips, PutsThemRoundTheFrameWhereTheSpecDoesNotSayWhereTheyLie) {
  Planned unsaid = plan_demo({{R"(style = "flanged")", R"(style = "flat")"}});
  const Planned said = plan_demo({{R"(style = "flanged")", R"(style = "flat", landing = "outward")"}});
  ASSERT_TRUE(unsaid.result.plan) << unsaid.said();
  ASSERT_TRUE(said.result.plan) << said.said();
  const auto followed = std::exchange(unsaid.result.plan->followed, {});
  ASSERT_EQ(followed.size(), 1U);
  EXPECT_EQ(followed[0].key + " = " + followed[0].value, "box.main.face.front.landing = outward");
  EXPECT_EQ(to_text(*unsaid.result.plan), to_text(*said.result.plan));
}

}  // namespace
}  // namespace fitup

// The sequence that a spec states: what waits for what, and what is refused.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <stdexcept>
#include <string>
#include <vector>

#include "plan/framed/planned.h"

namespace fitup {
namespace {

using test::plan_demo;
using test::Planned;
using testing::Contains;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

Planned demo_in(const std::string& sequence) {
  return plan_demo({{"[box.main]\n", "[box.main]\nsequence = " + sequence + "\n"}});
}

std::vector<std::string> names(const Plan& plan) {
  std::vector<std::string> all;
  for (const Step& step : plan.steps) all.push_back(step.what);
  return all;
}

std::size_t step(const Plan& plan, const std::string& what) {
  const auto all = names(plan);
  const auto found = std::find(all.begin(), all.end(), what);
  if (found == all.end()) throw std::runtime_error("no step " + what);
  return static_cast<std::size_t>(found - all.begin());
}

TEST(StatedSequence, EachWaitsForWhatIsNamedBeforeItAndAllElseComesAsEarlyAsItCan) {
  const Planned p = demo_in(R"(["block 6", "block 1", "rod plate front"])");
  ASSERT_TRUE(p.result.plan) << p.said();
  const Plan& plan = *p.result.plan;
  EXPECT_THAT(names(plan), ElementsAre("frame", "welded rod plate", "thermal_plate 1", "block 2", "thermal_plate 2",
                                       "block 3", "thermal_plate 3", "block 4", "thermal_plate 4", "block 5",
                                       "thermal_plate 5", "block 6", "block 1", "rod plate front",
                                       "screws of rod plate front", "nuts of rod plate front", "nuts of rod plate back",
                                       "front cover", "screws of front cover", "back cover", "screws of back cover"));
  EXPECT_THAT(plan.steps[step(plan, "block 1")].stated_after, ElementsAre(step(plan, "block 6")));
  EXPECT_THAT(plan.steps[step(plan, "block 1")].after, Contains(step(plan, "block 6")));
  EXPECT_THAT(plan.steps[step(plan, "block 2")].stated_after, IsEmpty());
}

TEST(StatedSequence, ScrewsAndNutsWaitForAllThatTheyHold) {
  const Planned p = demo_in(R"(["rod plate front", "block 3"])");
  ASSERT_TRUE(p.result.plan) << p.said();
  const Plan& plan = *p.result.plan;
  EXPECT_LT(step(plan, "screws of rod plate front"), step(plan, "block 3"));
  EXPECT_GT(step(plan, "nuts of rod plate front"), step(plan, "block 3"));
}

TEST(StatedSequence, OfWhatIsDerivedAnywayChangesNothing) {
  const Planned p = demo_in(R"(["block 1", "block 2", "rod plate front", "back cover"])");
  ASSERT_TRUE(p.result.plan) << p.said();
  EXPECT_EQ(names(*p.result.plan), names(*plan_demo().result.plan));
}

TEST(StatedSequence, IsRefusedWhereANameFitsNothingOrStandsTwice) {
  const Planned unknown = demo_in(R"(["block 1", "block 7"])");
  EXPECT_FALSE(unknown.result.plan);
  EXPECT_THAT(unknown.said(), HasSubstr("names \"block 7\", and nothing of the box comes to its place by that name"));
  EXPECT_THAT(unknown.said(), HasSubstr("block 6"));
  const Planned twice = demo_in(R"(["block 1", "block 2", "block 1"])");
  EXPECT_FALSE(twice.result.plan);
  EXPECT_THAT(twice.said(), HasSubstr("names \"block 1\" twice"));
}

constexpr const char* stacked = R"(
row      = [{ of = "block", count = 2, gap = 20 }, { of = "tray", count = 2, gap = 70, level = 2 }]
sequence = [SEQUENCE]
clearance = { left = 8, right = 8, front = 44, back = 36, top = 60 }
frame    = { section = "L 40x40x4" }
)";

Planned stacked_in(const std::string& sequence) {
  std::string box = stacked;
  box.replace(box.find("SEQUENCE"), 8, sequence);
  return test::plan_text(R"(fitup = 1
[item.block]
size = [150, 400, 220]
mass = 20
foot_strips = { width = 16 }
[item.tray]
size = [100, 300, 40]
mass = 2
[box.main]
)" + box);
}

TEST(StatedSequence, CannotPutWhatStandsOnSomethingBeforeThat) {
  ASSERT_TRUE(stacked_in(R"("block 2", "tray 2")").result.plan);
  const Planned p = stacked_in(R"("tray 1", "block 1")");
  EXPECT_FALSE(p.result.plan);
  EXPECT_THAT(p.said(), HasSubstr("has tray 1 before block 1, which it stands on or is held by"));
}

// The half block goes in first, and the box is joined with it and its rod plate in it.
TEST(StatedSequence, ABoxMayBeJoinedFull) {
  const std::string lower = R"([box.lower]
under = "main"
bearers = { section = "40x8" }
row = [{ of = "block" }]
sequence = [SEQUENCE]
clearance = { left = 8, right = 8, front = 44, back = 36, top = 60 }
frame = { section = "L 30x30x3" }

[lifting])";
  const auto in = [&](const std::string& sequence) {
    std::string text = lower;
    text.replace(text.find("SEQUENCE"), 8, sequence);
    return plan_demo({{"[lifting]", text}});
  };
  const Planned empty = in(R"("box lower", "block 1")");
  ASSERT_TRUE(empty.result.plan) << empty.said();
  const Planned full = in(R"("block 1", "box lower")");
  ASSERT_TRUE(full.result.plan) << full.said();
  const Plan& plan = *full.result.plan;
  const std::size_t joined = step(plan, "box lower");
  const std::size_t block = step(plan, "lower block 1");
  EXPECT_LT(block, joined);
  EXPECT_THAT(plan.steps[joined].with, Contains(block));
  EXPECT_GT(step(plan, "bolts of box lower"), joined);
  const Plan& before = *empty.result.plan;
  EXPECT_GT(step(before, "lower block 1"), step(before, "box lower"));
}

}  // namespace
}  // namespace fitup

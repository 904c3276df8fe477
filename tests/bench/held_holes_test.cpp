// What is marked through and drilled, what is cut already, and when rivet nuts are set.
// Entry: gtest.
#include "bench/held_holes.h"

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <set>

#include "bench/as_built_sheet.h"
#include "bench/assembly_sheet.h"
#include "bench/assembly_steps.h"
#include "bench/planned.h"

namespace fitup::bench {
namespace {

using testing::HasSubstr;
using testing::Not;

std::string words_of(const Paper& paper) {
  std::string all;
  for (const Page& page : paper.pages) {
    for (const Label& label : page.labels) all += label.words + " ";
  }
  return all;
}

class HeldHolesOf : public testing::TestWithParam<const char*> {};

// Counted again from the patterns alone: each screw once, those into the ground left aside.
TEST_P(HeldHolesOf, CountEachTransferredScrewOnceAndDrillOnlyWhatNoCutterCuts) {
  const Planned made = planned(GetParam());
  ASSERT_TRUE(made.plan);
  const Plan& plan = *made.plan;
  std::set<InstanceId> screws;
  for (const Pattern& pattern : plan.patterns) {
    if (pattern.key.ends_with(".feet") || pattern.key.ends_with(".lugs")) continue;
    for (const PatternBody& body : pattern.bodies) {
      for (const PatternHole& hole : body.holes) {
        if (hole.held == Making::transferred) screws.insert(hole.fastener);
      }
    }
  }
  ASSERT_FALSE(screws.empty());
  std::size_t count = 0;
  for (const HeldHoles& one : held_holes(plan)) {
    count += one.count;
    EXPECT_GT(one.diameter_mm, 0) << one.row;
    ASSERT_FALSE(one.in.empty()) << one.row;
    for (const InstanceId id : one.in) {
      const Part& part = plan.parts[plan.instances[id].part];
      if (one.cut) {
        EXPECT_EQ(part.source, Source::cut) << part.name;
      } else if (const auto* flat = std::get_if<Flat>(&part.form)) {
        EXPECT_FALSE(flat->drilled.empty()) << part.name;
      } else {
        EXPECT_EQ(part.source, Source::sawn) << part.name;
      }
    }
  }
  EXPECT_EQ(count, screws.size());
}

INSTANTIATE_TEST_SUITE_P(Examples, HeldHolesOf, testing::ValuesIn(drawn_examples));

// The demo's screws hold in what is sawn. Tap drills of coarse threads are nominal less pitch (ISO 2306, from memory).
TEST(HeldHoles, OfSawnMembersAreDrilledForWhatHoldsTheScrew) {
  const Planned made = planned("park-locomotive/front-box.toml");
  ASSERT_TRUE(made.plan);
  bool tapped = false;
  for (const HeldHoles& one : held_holes(*made.plan)) {
    if (one.purpose != "tap M4") continue;
    tapped = true;
    EXPECT_NEAR(one.diameter_mm, 4 - 0.7, 0.01) << one.row;
  }
  EXPECT_TRUE(tapped);
}

// Of 12 weld nuts behind the back cover 8 sit on ring members, which are sawn, and 4 on landing strips, which are cut.
TEST(WeldNuts, OnSawnMembersComeOnOnceTheirHolesAreDrilled) {
  const Planned made = planned("../fixtures/cases/sound.toml", {{"box.main.face.back.screws.fixing", "\"weld nut\""}});
  ASSERT_TRUE(made.plan);
  const std::set<InstanceId> later = nuts_after_drilling(*made.plan);
  EXPECT_EQ(later.size(), 8U);
  std::size_t drilled = 0;
  for (const HeldHoles& one : held_holes(*made.plan))
    if (one.purpose == "weld nut M4" && !one.cut) drilled += one.count;
  EXPECT_EQ(drilled, later.size());
  const std::vector<AssemblyStep> steps = assembly_steps(*made.plan, {});
  const auto& now = steps.front().at_once;
  std::size_t nuts = 0;
  for (const InstanceId id : now) nuts += made.plan->parts[made.plan->instances[id].part].mark == "WLN-M4" ? 1 : 0;
  EXPECT_EQ(nuts, 4U);
  EXPECT_THAT(steps.front().minds, testing::Contains(HasSubstr("Not yet: 8 x WLN-M4 weld nut")));
}

/// What is set in the frame is counted once more from the instances, and set after the coat.
TEST(RivetNuts, AreSetOnceTheFrameIsWeldedAndCoated) {
  const auto& [made, model] = modelled("workboat-locker/locker.toml");
  ASSERT_TRUE(made.plan);
  Plan plan = *made.plan;
  std::size_t inserts = 0;
  for (const Instance& instance : plan.instances) inserts += plan.parts[instance.part].role == Role::insert ? 1 : 0;
  ASSERT_GT(inserts, 0U);
  std::size_t said = 0;
  for (const RivetNuts& one : rivet_nuts(plan)) said += one.count;
  EXPECT_EQ(said, inserts);
  const Type type;
  const JobInfo info = sample::info();
  plan.coat = Coat{"powder coat", 0.1, 1, false, {}};
  const auto coated = assembly_paper(plan, model, info, type);
  ASSERT_TRUE(coated);
  const std::string words = words_of(*coated);
  const std::string set = fmt::format("Set {} M5 rivet nuts", inserts);
  EXPECT_THAT(words, HasSubstr(set));
  EXPECT_LT(words.find("Coat the frame"), words.find(set));
  EXPECT_LT(words.find(set), words.find("Tighten:"));
  EXPECT_THAT(words, HasSubstr("set after welding and coating"));
  EXPECT_THAT(words, Not(HasSubstr("drill and tap")));
  plan.coat.reset();
  const auto bare = assembly_paper(plan, model, info, type);
  ASSERT_TRUE(bare);
  EXPECT_THAT(words_of(*bare), HasSubstr(set));
  EXPECT_THAT(words_of(*bare), Not(HasSubstr("coating")));
}

TEST(RivetNutWords, NameEachSizeOnceWithItsRows) {
  EXPECT_EQ(rivet_nut_words({{"M4", "back cover", 20}, {"M4", "front cover", 20}, {"M5", "left cover", 28}}),
            "40 M4 and 28 M5 rivet nuts, each with its tool: M4 of the back cover 20, front cover 20; M5 of the left "
            "cover 28");
  EXPECT_EQ(rivet_nut_words({}), "");
}

/// The locker's front has its landing round the frame, its back within.
TEST(AsBuilt, NamesTheFacesWithALandingOutsideTheFrame) {
  const Planned made = planned("workboat-locker/locker.toml");
  ASSERT_TRUE(made.plan);
  EXPECT_THAT(ringed_faces(*made.plan, made.plan->frames.front()), testing::ElementsAre("front"));
}

}  // namespace
}  // namespace fitup::bench

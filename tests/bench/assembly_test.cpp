// The assembly and weld sheet of the examples: nothing is left out, and every number is that of the plan.
// Entry: gtest.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <set>

#include "bench/as_built_sheet.h"
#include "bench/assembly_sheet.h"
#include "bench/assembly_steps.h"
#include "bench/planned.h"
#include "bench/seam_order.h"
#include "bench/torque.h"

namespace fitup::bench {
namespace {

class Assembly : public testing::TestWithParam<const char*> {};

TEST_P(Assembly, AddsEveryPartOnceAndWeldsEverySeamOnce) {
  const Planned made = planned(GetParam());
  ASSERT_TRUE(made.plan);
  const Plan& plan = *made.plan;
  const Seams seams = seams_of(plan);
  std::vector<std::size_t> added(plan.instances.size());
  std::vector<std::size_t> welded(seams.all.size());
  std::size_t next = 1;
  for (const AssemblyStep& step : assembly_steps(plan, seams_of(plan))) {
    EXPECT_EQ(step.first, next) << step.title;
    next = step.last + 1;
    for (const InstanceId id : step.added) ++added[id];
    // What comes to its place as one was welded before, by itself.
    const bool in_place = step.kind == StepKind::weld;
    int turn = 0;
    for (const WeldJoint& joint :
         weld_order(plan, seams, step.added, in_place ? step.there : std::vector<InstanceId>{})) {
      EXPECT_GE(joint.turn, turn) << "corners of the frame come before what lies between";
      turn = joint.turn;
      for (const std::size_t seam : joint.seams) ++welded[seam];
    }
  }
  EXPECT_EQ(next, plan.steps.size() + 1);
  for (std::size_t i = 0; i < added.size(); ++i) EXPECT_EQ(added[i], 1U) << plan.instances[i].name;
  for (std::size_t i = 0; i < welded.size(); ++i) {
    EXPECT_EQ(welded[i], seams.all[i].state == SeamState::left_free ? 0U : 1U) << i;
  }
  EXPECT_GT(std::count(welded.begin(), welded.end(), 1U), 20);
}

/// What is said on the sheet, line by line joined.
std::string words_of(const Paper& paper) {
  std::string all;
  for (const Page& page : paper.pages) {
    for (const Label& label : page.labels) all += label.words + " ";
  }
  return all;
}

std::size_t count_of(const std::string& text, const std::string& piece) {
  std::size_t count = 0;
  for (std::size_t at = text.find(piece); at != std::string::npos; at = text.find(piece, at + 1)) ++count;
  return count;
}

/// A frame is tacked, squared by its diagonals, filled, squared again, and only then welded; each thread's torque
/// stands once a step, with its source; inner nuts are locked on their rods before outer ones are drawn against them.
TEST(AssemblySheet, SaysHowTheDemoIsSquaredAndHowItsNutsAreKept) {
  const auto& [made, model] = modelled("park-locomotive/front-box.toml");
  ASSERT_TRUE(made.plan);
  const Type type;
  JobInfo info = sample::info();
  auto paper = assembly_paper(*made.plan, model, info, type);
  ASSERT_TRUE(paper);
  const std::string words = words_of(*paper);
  // The frame is 984 x 518 x 329; diagonals by Pythagoras.
  EXPECT_EQ(count_of(words, "front and back 1037.5"), 2U);
  EXPECT_LT(words.find("the top ring on the uprights"), words.find("1037.5"));
  EXPECT_LT(words.find("1037.5"), words.find("what lies between the members"));
  EXPECT_LT(words.find("what lies between the members"), words.find("plates and what stands on the frame"));
  EXPECT_LT(words.find("plates and what stands on the frame"), words.find("Weld in this order"));
  EXPECT_LT(words.find("Inner nuts: set to the"), words.find("Tighten: nuts of rod plate"));
  std::size_t fastened = 0;
  for (const Step& step : made.plan->steps) fastened += step.kind == StepKind::fasten ? 1 : 0;
  EXPECT_EQ(count_of(words, " N m "), fastened);
  EXPECT_EQ(count_of(words, "proof load"), fastened);
  EXPECT_EQ(count_of(words, "hold the inner nut"), 2U);
  info.bench.torques.push_back({"M6", 4, "the maker of the block"});
  paper = assembly_paper(*made.plan, model, info, type);
  ASSERT_TRUE(paper);
  EXPECT_EQ(count_of(words_of(*paper), "the maker of the block"), 2U);
  EXPECT_EQ(count_of(words_of(*paper), "item's maker"), 0U);
  EXPECT_GT(count_of(words, "item's maker"), 0U);
}

// Whatever is tacked has a part that lies on the bench or is held already by what was tacked.
/// Nothing is done without something to see: each step's picture has something bold, and what is moved as one was added
/// by the steps that it names.
TEST_P(Assembly, ShowsInEachStepWhatItMoves) {
  const Planned made = planned(GetParam());
  ASSERT_TRUE(made.plan);
  std::set<InstanceId> added;
  for (const AssemblyStep& step : assembly_steps(*made.plan, seams_of(*made.plan))) {
    EXPECT_FALSE(step.drawn_bold.empty()) << step.title;
    EXPECT_TRUE(!step.parts.empty() || !step.moved.empty()) << step.title;
    added.insert(step.added.begin(), step.added.end());
    for (const InstanceId id : step.drawn_bold) EXPECT_EQ(added.count(id), 1U) << step.title;
    for (const InstanceId id : step.drawn_light) {
      EXPECT_FALSE(std::binary_search(step.drawn_bold.begin(), step.drawn_bold.end(), id)) << step.title;
      EXPECT_EQ(added.count(id), 1U) << step.title;
    }
  }
}

TEST(AssemblySteps, TheLowerBoxIsWeldedByItselfAndThenMovedAsOne) {
  const Planned made = planned("park-locomotive/front-box-with-lower.toml");
  ASSERT_TRUE(made.plan);
  bool moved = false;
  for (const AssemblyStep& step : assembly_steps(*made.plan, seams_of(*made.plan))) {
    const bool of_lower = step.title.find("lower") != std::string::npos;
    if (step.kind == StepKind::weld && of_lower) {
      for (const InstanceId id : step.drawn_light) {
        const Instance& seen = made.plan->instances[id];
        EXPECT_TRUE(seen.key.starts_with("box.lower") && seen.key != "box.lower.bearers") << seen.name;
      }
    }
    for (const std::string& aid : step.aids) {
      EXPECT_FALSE(of_lower && aid.ends_with(" for block")) << step.title << ": " << aid;
    }
    if (step.moved.empty()) continue;
    moved = true;
    EXPECT_TRUE(of_lower) << step.title;
    EXPECT_EQ(step.moved, "what steps 3 and 4 made");
  }
  EXPECT_TRUE(moved);
}

TEST_P(Assembly, TacksWhatIsHeld) {
  const Planned made = planned(GetParam());
  ASSERT_TRUE(made.plan);
  const Plan& plan = *made.plan;
  const Seams seams = seams_of(plan);
  for (const AssemblyStep& step : assembly_steps(plan, seams_of(plan))) {
    if (step.kind != StepKind::weld) continue;
    const auto joints = weld_order(plan, seams, step.added, step.there);
    std::vector<std::size_t> tacked(joints.size());
    std::set<InstanceId> held(step.there.begin(), step.there.end());
    for (const TackStage& stage : tack_stages(plan, joints)) {
      EXPECT_FALSE(stage.what.empty());
      const bool flat = stage.what.find("ring, ") != std::string::npos;
      for (const std::size_t i : stage.joints) {
        ++tacked[i];
        EXPECT_TRUE(flat || held.empty() || held.count(joints[i].a) + held.count(joints[i].b) > 0)
            << stage.what << ": " << plan.instances[joints[i].a].name << ", " << plan.instances[joints[i].b].name;
        held.insert({joints[i].a, joints[i].b});
      }
    }
    EXPECT_EQ(std::count(tacked.begin(), tacked.end(), 1U), static_cast<std::ptrdiff_t>(joints.size()));
  }
}

INSTANTIATE_TEST_SUITE_P(Examples, Assembly, testing::ValuesIn(examples));

// The demo's frame is 984 x 518 x 329: diagonals by Pythagoras.
TEST(AsBuilt, NamesWhatTheSpecNamesWithThePlannedSizes) {
  const Planned made = planned("park-locomotive/front-box.toml");
  ASSERT_TRUE(made.plan);
  const auto sides = measured_sides(made.plan->frame_size);
  ASSERT_EQ(sides.size(), 6U);
  const auto rows = key_table();
  for (const MeasuredSide& side : sides) {
    ASSERT_EQ(side.measures.size(), 6U);
    for (const Measure& m : side.measures) {
      EXPECT_TRUE(std::any_of(rows.begin(), rows.end(), [&](const KeyRow& row) {
        return row.key == "as_built.NAME.FACE." + m.key;
      })) << m.key;
    }
  }
  EXPECT_EQ(sides[0].face, "front");
  EXPECT_EQ(sides[0].measures[0].key, "width_bottom");
  EXPECT_NEAR(sides[0].measures[0].planned_mm, 984, 1e-9);
  EXPECT_NEAR(sides[0].measures[4].planned_mm, std::hypot(984, 329), 1e-9);
  EXPECT_NEAR(sides[2].measures[4].planned_mm, std::hypot(518, 329), 1e-9);
  EXPECT_NEAR(sides[4].measures[4].planned_mm, std::hypot(984, 518), 1e-9);
}

// A gap of 2 mm and 4 mm that screws draw: the top of the front may stand 2 mm beside its bottom, and by Pythagoras its
// rising diagonal is then that much longer. Flat covers follow the frame.
TEST(AsBuilt, NamesWhatAFlangedCoverFollows) {
  const Planned made = planned("park-locomotive/front-box.toml");
  ASSERT_TRUE(made.plan);
  const auto sides = measured_sides(made.plan->frame_size);
  const auto front = cover_follows_mm(*made.plan, "main", sides[0]);
  ASSERT_TRUE(front);
  EXPECT_NEAR(*front, std::hypot(984 + 2, 329) - std::hypot(984, 329), 0.001);
  EXPECT_FALSE(cover_follows_mm(*made.plan, "main", sides[1])) << "flat";
  EXPECT_FALSE(cover_follows_mm(*made.plan, "main", sides[2])) << "a plate";
}

// Proof loads of ISO 898-1, class 4.8, coarse thread, from memory; T = 0.2 d (0.75 F) as Shigley has it.
TEST(Torque, FollowsTheProofLoadOfTheWeakestCommonClass) {
  for (const auto& [size, major_mm, proof_n] :
       {std::tuple{"M4", 4.0, 2720.0}, std::tuple{"M5", 5.0, 4400.0}, std::tuple{"M6", 6.0, 6230.0},
        std::tuple{"M8", 8.0, 11400.0}, std::tuple{"M10", 10.0, 18000.0}, std::tuple{"M12", 12.0, 26100.0}}) {
    const auto torque = torque_for(size, BenchOptions{});
    ASSERT_TRUE(torque) << size;
    EXPECT_NEAR(torque->newton_metres, 0.2 * major_mm * 0.75 * proof_n / 1000, 0.01 * torque->newton_metres) << size;
  }
}

TEST(Torque, TheMakersValueGoesFirst) {
  BenchOptions bench;
  bench.torques.push_back({"M6", 4, "maker of the module"});
  EXPECT_EQ(torque_for("M6", bench)->newton_metres, 4);
  EXPECT_EQ(torque_for("M6", bench)->source, "maker of the module");
  EXPECT_NE(torque_for("M8", bench)->source, "maker of the module");
  EXPECT_FALSE(torque_for("M7.5", bench));
}

}  // namespace
}  // namespace fitup::bench

// The frame's model of whole boxes: nothing is lost, all is in balance, and simple bounds by hand.
#include "loads/frame_check.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <set>

#include "checks/planned.h"
#include "fitup/loads.h"
#include "loads/again.h"
#include "loads/box_model.h"
#include "loads/plate_model.h"
#include "loads/solved_cases.h"
#include "loads/thrown.h"

namespace fitup::loads {
namespace {

std::unique_ptr<const test::Planned> example(const std::string& name, const std::vector<Override>& overrides = {}) {
  const auto path = std::filesystem::path(FITUP_EXAMPLES) / name;
  return test::planned(path.string(), test::text_of(path), overrides);
}

const std::vector<std::string> examples{"park-locomotive/front-box.toml", "park-locomotive/rear-box.toml",
                                        "park-locomotive/front-box-with-lower.toml", "park-locomotive/front-box-thrown.toml",
                                        "orchard-sprayer/battery-box.toml", "cabin-inverter/cabinet.toml"};

struct TwoBoxes {
  std::string name;
  std::vector<Override> overrides;
  bool lower_stands;
};

// A framed box and one of plates are not reckoned with together: the first one is, under the weight of both, and it is
// said of the other one.
TEST(BoxModel, IsOfTheFirstBoxAndSaysWhichOneIsLeftOut) {
  const Override plates{"box.main.build", "plate"}, ring{"box.main.plates.base_ring", "L 40x40x4"};
  const Override lower_of_plates{"box.lower.build", "plate"};
  const std::vector<TwoBoxes> all{{"framed", {}, true},
                                  {"plates over a frame", {plates}, false},
                                  {"plates on a ring over a frame", {plates, ring}, false},
                                  {"a frame over plates", {lower_of_plates}, false},
                                  {"plates over plates", {plates, lower_of_plates}, false}};
  for (const auto& [name, overrides, lower_stands] : all) {
    const auto made = example("park-locomotive/front-box-with-lower.toml", overrides);
    ASSERT_TRUE(made->plan) << name;
    const Plan& plan = *made->plan;
    const Seams seams = seams_of(plan);
    const auto model = box_model(plan, seams);
    ASSERT_TRUE(model) << name;
    std::set<std::string> keys;
    for (const FramePiece& p : model->pieces) {
      const Instance& i = plan.instances[p.of];
      if (plan.parts[i.part].role != Role::bearer) keys.insert(i.key.substr(0, 8));
    }
    for (const InstanceId id : model->panel_of) keys.insert(plan.instances[id].key.substr(0, 8));
    EXPECT_TRUE(keys.contains("box.main")) << name;
    EXPECT_EQ(keys.contains("box.lowe"), lower_stands) << name;
    const auto said = boxes_left_out(plan, *model);
    ASSERT_EQ(said.size(), lower_stands ? 0U : 1U) << name;
    if (!lower_stands) {
      EXPECT_EQ(said.front().verdict, Verdict::not_checked);
      EXPECT_THAT(said.front().message, testing::HasSubstr("box lower is not in the frame"));
    }
    const auto cases = frame_cases(plan, *model, weigh(plan, seams), plan.load_rules);
    const auto solutions = solved(cases);
    ASSERT_TRUE(solutions) << name;
    double kg = 0;
    for (const Instance& i : plan.instances) {
      if (plan.parts[i.part].source != Source::printed) kg += plan.parts[i.part].mass_kg;
    }
    for (const SolvedCase& s : *solutions) {
      if (s.of->kind != LoadKind::standing) continue;
      double up = 0;
      for (const Vec3 r : s.result.reaction) up += r.z;
      EXPECT_NEAR(up, kg * gravity, 1e-6 * up) << name;
    }
    EXPECT_TRUE(std::any_of(solutions->begin(), solutions->end(),
                            [](const SolvedCase& s) { return s.of->kind == LoadKind::lifted; }))
        << name;
  }
}

TEST(FrameModel, CarriesAllThatIsInThePlan) {
  for (const std::string& name : examples) {
    const auto made = example(name);
    const auto model = frame_model(*made->plan, seams_of(*made->plan));
    ASSERT_TRUE(model) << name;
    double kg = 0;
    for (const Instance& i : made->plan->instances) {
      const Part& part = made->plan->parts[i.part];
      if (part.source != Source::printed) kg += part.mass_kg;
    }
    for (const Bearing bearing : {Bearing::even, Bearing::ends}) {
      const LoadPaths paths = load_paths(*made->plan, *model);
      const LoadCase load = loads_of(*made->plan, *model, paths, {0, 0, -gravity}, {bearing}).load;
      double down = 0;
      for (const NodeLoad& n : load.nodes) down -= n.force.z;
      for (const LineLoad& l : load.lines) {
        down -= l.force_per_mm.z * (model->pieces[l.member].to_mm - model->pieces[l.member].from_mm);
      }
      EXPECT_NEAR(down, kg * gravity, 1e-6 * down) << name;
    }
  }
}

std::vector<std::filesystem::path> every_example() {
  std::vector<std::filesystem::path> all;
  for (const auto& entry : std::filesystem::recursive_directory_iterator(FITUP_EXAMPLES)) {
    if (entry.path().extension() == ".toml") all.push_back(entry.path());
  }
  std::sort(all.begin(), all.end());
  return all;
}

TEST(FrameCheck, ReactionsBalanceTheLoadOnEveryExample) {
  EXPECT_GE(every_example().size(), 7U);
  for (const auto& path : every_example()) {
    const auto made =
        test::planned(path.string(), test::text_of(path),
                      {{"loads.thrown.front", "2"}, {"loads.thrown.left", "1"}, {"loads.why", "\"a law\""}});
    ASSERT_TRUE(made->plan) << path;
    const Plan& plan = *made->plan;
    const Seams seams = seams_of(plan);
    auto model = frame_model(plan, seams);
    if (!model) model = plate_model(plan, seams);
    ASSERT_TRUE(model) << path;
    const auto cases = frame_cases(plan, *model, weigh(plan, seams), plan.load_rules);
    EXPECT_GE(cases.size(), 6U) << path;
    const auto all = solved(cases);
    ASSERT_TRUE(all) << path;
    for (const SolvedCase& s : *all) {
      const Balance b = balance_of(s.of->frame, s.of->load, s.result);
      EXPECT_LT(norm(b.force), 1e-9 * b.load_n) << path << ": " << s.of->words;
      EXPECT_LT(norm(b.moment), 1e-9 * b.lever_nmm) << path << ": " << s.of->words;
    }
  }
}

// What hangs on its worst points balances by itself: what keeps it in place takes next to nothing. Of two points the
// load is turned so far that its centre of mass, some 20 mm beside the line between them, is below it.
TEST(FrameCheck, ALiftNeedsNothingElseToHoldIt) {
  const std::vector<std::vector<Override>> ways{
      {},
      {{"lifting.points", "2"}},
      {{"lifting.points", "2"}, {"lifting.at", "[[23, 280], [961, 280]]"}},
      {{"lifting.points", "3"}, {"lifting.at", "[[23, 100], [961, 100], [492, 495]]"}}};
  for (const auto& overrides : ways) {
    const auto made = example("park-locomotive/front-box.toml", overrides);
    ASSERT_TRUE(made->plan);
    const Plan& plan = *made->plan;
    const Weights weights = weigh(plan, seams_of(plan));
    const auto model = frame_model(plan, seams_of(plan));
    std::size_t lifts = 0;
    for (const FrameCase& c : frame_cases(plan, *model, weights, plan.load_rules)) {
      if (!c.words.starts_with("lifted")) continue;
      ++lifts;
      const FrameResult result = FrameSolver::factor(c.frame)->solve(c.load);
      const double weight = weights.whole(LoadState::loaded).kg * gravity;
      Vec3 force, moment;
      for (std::size_t i = 0; i < result.reaction.size(); ++i) {
        force = force + result.reaction[i];
        moment =
            moment + cross(c.frame.nodes[c.frame.supports[i].node], result.reaction[i]) + result.reaction_moment[i];
      }
      EXPECT_LT(norm(force), 1e-6 * weight) << c.words;
      // Of a metre's lever: the shares are of the centre of mass, a member's pieces end short of its own.
      EXPECT_LT(norm(moment), 0.01 * weight * 1000) << c.words;
    }
    EXPECT_GE(lifts, 2U) << overrides.size();
  }
}

// Of the demo's inner rails each carries a block in halves (23 kg and a half of two plates, 1.1 kg): W over a free span
// of 438 mm. Built in, W L / 12; free, W L / 8: its stress in a section of 50 x 5 lies between the two.
TEST(FrameCheck, TheRailsStressLiesBetweenBuiltInAndFree) {
  const auto made = example("park-locomotive/front-box.toml");
  const Plan& plan = *made->plan;
  const auto model = frame_model(plan, seams_of(plan));
  FrameCase standing;
  for (const FrameCase& c : frame_cases(plan, *model, weigh(plan, seams_of(plan)), plan.load_rules)) {
    if (c.words.starts_with("standing")) {
      standing = c;
      break;
    }
  }
  const auto solver = FrameSolver::factor(standing.frame);
  const FrameResult result = solver->solve(standing.load);
  double most = 0;
  for (std::size_t p = 0; p < model->pieces.size(); ++p) {
    const Instance& rail = plan.instances[model->pieces[p].of];
    if (plan.parts[rail.part].role != Role::rail) continue;
    for (const double share : {0.0, 0.5, 1.0}) {
      most = std::max(most, stress_mpa(model->sections.at(model->pieces[p].of), solver->inner(result, p).at(share)));
    }
  }
  const double moment = (23 + 1.1) * gravity * 438;
  const double modulus = 50 * 25 / 6.0;
  EXPECT_GT(most, 0.8 * moment / 24 / modulus);
  EXPECT_LT(most, 1.6 * moment / 8 / modulus);
}

std::vector<std::string> failing(const std::vector<Finding>& findings) {
  std::vector<std::string> checks;
  for (const Finding& f : findings) {
    if (f.verdict == Verdict::fail) checks.push_back(f.check);
  }
  std::sort(checks.begin(), checks.end());
  return checks;
}

// Who wants less than all of the loads is told nothing else of them: blocks of 23 kg pass, of 120 and 7000 kg do not.
TEST(CheckLoads, InPartSayWhatTheySayInFull) {
  const auto path = std::filesystem::path(FITUP_EXAMPLES) / "park-locomotive/front-box.toml";
  for (const std::string mass : {"23.0", "120.0", "7000.0"}) {
    std::string text = test::text_of(path);
    const auto at = text.find("= 23.0");
    ASSERT_NE(at, std::string::npos);
    text.replace(at + 2, 4, mass);
    const auto made = test::planned(path.string(), text, {});
    ASSERT_TRUE(made->plan);
    const std::vector<Finding> all = check_loads(*made->plan);
    const std::vector<std::string> fails = failing(all);
    EXPECT_EQ(fails.empty(), mass == "23.0") << mass;
    const std::vector<Finding> cut_short = check_until_failure(*made->plan);
    const std::vector<std::string> first = failing(cut_short);
    EXPECT_EQ(first.empty(), fails.empty());
    EXPECT_TRUE(std::includes(fails.begin(), fails.end(), first.begin(), first.end())) << mass;
    if (first.empty()) {
      EXPECT_EQ(cut_short.size(), all.size());
    }
    for (const std::string check : {"lift", "hold-down", "frame", "seams", "seam-size", "weight"}) {
      std::vector<std::string> alone, among;
      for (const Finding& f : check_only(*made->plan, check)) {
        if (f.check == check) alone.push_back(f.message);
      }
      for (const Finding& f : all) {
        if (f.check == check) among.push_back(f.message);
      }
      EXPECT_EQ(alone, among) << mass << " " << check;
    }
  }
}

}  // namespace
}  // namespace fitup::loads

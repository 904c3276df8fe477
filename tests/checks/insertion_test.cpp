// The sequence of whole plans, and their ways judged by the kernel step by step.
#include <algorithm>

#include <gtest/gtest.h>

#include "checks/insertion.h"
#include "checks/planned.h"
#include "checks/ways.h"
#include "fitup/findings.h"
#include "fitup/model.h"

namespace fitup {
namespace {

std::vector<std::filesystem::path> whole_specs() {
  std::vector<std::filesystem::path> all{test::sound_box()};
  for (const auto& entry : std::filesystem::recursive_directory_iterator(FITUP_EXAMPLES)) {
    if (entry.path().extension() == ".toml") all.push_back(entry.path());
  }
  for (const auto& folder : test::case_folders()) all.push_back(folder / "spec.toml");
  std::sort(all.begin(), all.end());
  return all;
}

TEST(Steps, AddEachInstanceOnceAndWaitOnlyForEarlierOnes) {
  for (const auto& path : whole_specs()) {
    SCOPED_TRACE(path);
    const auto box = test::planned(path.string(), test::text_of(path));
    ASSERT_TRUE(box->plan);
    std::vector<int> added(box->plan->instances.size(), 0);
    for (std::size_t s = 0; s < box->plan->steps.size(); ++s) {
      const Step& step = box->plan->steps[s];
      for (const InstanceId i : step.adds) ++added[i];
      for (const auto* earlier : {&step.after, &step.with}) {
        for (const std::size_t e : *earlier) EXPECT_LT(e, s);
      }
      EXPECT_EQ(step.kind == StepKind::place, !step.ways.empty());
    }
    EXPECT_TRUE(std::all_of(added.begin(), added.end(), [](int n) { return n == 1; }));
  }
}

/// Of what a step brings: pairs of a mover and what stands there, stepped from afar by half a millimetre wherever their
/// boxes overlap; the parts that share volume somewhere.
std::vector<std::string> kernel_blocks(const Plan& plan, const Model& model, std::size_t step) {
  const checks::Scene scene(plan, {});
  std::vector<std::string> found;
  const Vec3 way = plan.steps[step].ways.front();
  for (std::size_t s = 0; s < step; ++s) {
    for (const InstanceId by : plan.steps[s].adds) {
      for (const InstanceId mover : plan.steps[step].adds) {
        const Box3 standing = scene.body(by).outer.box;
        const Box3 box = scene.body(mover).outer.box;
        if (!checks::may_meet(box, standing, way)) continue;
        const Instance& a = plan.instances[mover];
        const Instance& b = plan.instances[by];
        for (double before = 600; before >= 0; before -= 0.5) {
          const Vec3 at = -before * way;
          if (checks::apart({box.low + at, box.high + at}, standing, -1e-3)) continue;
          const auto volume =
              solid::common_volume_mm3(model.parts[a.part].solid, a.pose.moved(at), model.parts[b.part].solid, b.pose);
          if (!volume || *volume <= 1e-3) continue;
          found.push_back(a.name + " in " + b.name);
          break;
        }
      }
    }
  }
  return found;
}

// The first block, whose rods pass the far plate, and the bolted rod plate, which goes over all rods.
TEST(Insertion, OfTheSoundBoxIsFreeToTheKernelToo) {
  const auto box = test::planned(test::sound_box().string(), test::text_of(test::sound_box()));
  const auto model = build_model(*box->plan);
  ASSERT_TRUE(model);
  int judged = 0;
  for (std::size_t s = 0; s < box->plan->steps.size(); ++s) {
    const Step& step = box->plan->steps[s];
    if (step.what != "block 1" && step.what != "thermal_plate 1" && step.what != "rod plate front") continue;
    EXPECT_EQ(kernel_blocks(*box->plan, *model, s), std::vector<std::string>{}) << step.what;
    ++judged;
  }
  EXPECT_EQ(judged, 3);
  for (const Finding& f : check_by_rules(*box->plan).all) {
    EXPECT_TRUE(f.check != "insertion" || f.verdict == Verdict::pass) << f.message;
  }
}

// The far plate's holes are 0.1 mm smaller than the rods.
TEST(Insertion, OfRodsThroughHolesThatAreTooSmallIsBlockedWhereTheyBegin) {
  const auto box = test::planned(test::sound_box().string(), test::text_of(test::sound_box()));
  Plan plan = *box->plan;
  for (Part& part : plan.parts) {
    if (part.role != Role::rod_plate || part.name.find("back") == std::string::npos) continue;
    for (Loop& hole : std::get<Flat>(part.form).profile.holes) {
      if (const auto round = hole.as_circle()) hole = Loop::circle(round->centre, 2.9);
    }
  }
  const checks::Scene scene(plan, {});
  const auto named = [&](const std::string& name) {
    const auto it =
        std::find_if(plan.instances.begin(), plan.instances.end(), [&](const auto& i) { return i.name == name; });
    return static_cast<InstanceId>(it - plan.instances.begin());
  };
  const auto stop = checks::stop_of(scene.body(named("block 1 rod 1")), scene.body(named("rod plate back")), axis::y);
  // The rod reaches 20 mm behind the block; the plate begins behind the nut, 5.2 mm.
  EXPECT_NEAR(stop.sure_mm.value_or(0), 20 - 5.2, 1e-6);
}

// A plate with a window is higher than the items, its sill 3 mm higher than the rails that they stand on.
constexpr const char* behind_a_window = R"(fitup = 1
name = "case"
units = "mm"
[item.block]
size = [150, 310, 180]
mass = 9.5
foot_strips = { width = 25 }
[box.main]
build = "plate"
row = [{ of = "block", count = 2, gap = 10 }]
clearance = { left = 30, right = 30, front = 60, back = 48, top = 110 }
frame = { section = "L 50x50x5" }
plates = { thickness = 6, border = 50 }
rails = { thickness = 4 }
[box.main.face]
front = { entry = true, closed_by = "cover", style = "flat", thickness = 3, screws = { thread = "M4", fixing = "weld nut" } }
)";

TEST(Insertion, OfItemsThroughAWindowGoesOverItsSill) {
  const auto box = test::planned("case.toml", behind_a_window);
  ASSERT_TRUE(box->plan);
  int over = 0;
  for (const Finding& f : check_by_rules(*box->plan).all) {
    if (f.check != "insertion") continue;
    EXPECT_EQ(f.verdict, Verdict::pass) << f.message;
    if (f.message.find("block 1 goes in along +Y, lifted 3.00 mm") != std::string::npos) ++over;
  }
  EXPECT_EQ(over, 1);
}

}  // namespace
}  // namespace fitup

// Every kind of thing that comes to its place in the examples, along each of six ways, judged by the solid kernel:
// where the rules say that it is stopped, it shares volume half a millimetre farther on and none before; where they say
// that it passes, it shares none anywhere.
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <filesystem>
#include <random>
#include <set>

#include "checks/planned.h"
#include "checks/ways.h"
#include "fitup/model.h"

namespace fitup {
namespace {

using checks::Standing;
using checks::Thing;

constexpr double step_mm = 0.5;
constexpr int tries = 4;  // places looked at on a free way, or before a stop, drawn from its steps

struct Placed {
  Solid solid;
  Pose pose;
};

std::vector<Placed> solids_of(const checks::Scene& scene) {
  const Plan& plan = scene.plan();
  const auto model = build_model(plan).value();
  std::vector<Placed> all;
  for (const Instance& i : plan.instances) all.push_back({model.parts[i.part].solid, i.pose});
  for (const Zone& zone : plan.zones) {
    const Vec3 size = zone.box.size();
    all.push_back({solid::extrude({Loop::rectangle({0, 0}, {size.x, size.y}), {}}, Pose{}, size.z).value(),
                   Pose::at(zone.box.low)});
  }
  for (const Bead& bead : scene.beads()) {
    all.push_back({solid::extrude(bead.prism.profile, Pose{}, bead.prism.length_mm).value(), bead.prism.pose});
  }
  return all;
}

class Ways : public testing::Test {
 protected:
  void judge(const std::filesystem::path& path) {
    const auto box = test::planned(path.string(), test::text_of(path));
    ASSERT_TRUE(box->plan) << path;
    const checks::Scene scene(*box->plan, {});
    const auto solids = solids_of(scene);
    const checks::Ways ways(scene);
    Standing standing(scene.things(), false);
    for (const Step& step : box->plan->steps) {
      if (step.kind == StepKind::place && step.with.empty() && is_new(*box->plan, step)) {
        for (const Vec3 way : six) judge(scene, solids, ways, step, standing, way);
      }
      ways.put(standing, step.adds, true);
    }
  }

  int stopped_ = 0;
  int free_ = 0;

 private:
  static constexpr std::array<Vec3, 6> six{axis::x, axis::minus_x, axis::y, axis::minus_y, axis::z, axis::minus_z};

  // Of each part that leads a step the first: the others move past the same frame, some farther on.
  bool is_new(const Plan& plan, const Step& step) {
    const Part& part = plan.parts[plan.instances[step.adds.front()].part];
    return seen_.insert(shape_key(part) + std::to_string(step.adds.size())).second;
  }

  void judge(const checks::Scene& scene, const std::vector<Placed>& solids, const checks::Ways& ways, const Step& step,
             const Standing& standing, Vec3 way) {
    const auto movers = ways.with_beads(step.adds);
    const auto meets = [&](double before) { return meet(scene, solids, movers, standing, -before * way); };
    const auto block = ways.first_block(movers, standing, way);
    SCOPED_TRACE(testing::Message() << step.what << " along " << checks::way_text(way)
                                    << (block ? " stopped by " + scene.words(block->by) : " free"));
    if (block && (!block->sure || block->before_mm < 2 * step_mm)) return;
    ++(block ? stopped_ : free_);
    if (block) {
      EXPECT_TRUE(meets(block->before_mm - step_mm)) << block->before_mm << " mm before its place";
      EXPECT_FALSE(meets(block->before_mm + 0.01)) << block->before_mm << " mm before its place";
    }
    const double from = block ? block->before_mm : 0;
    std::uniform_int_distribution<int> steps(1, 1200);
    for (int i = 0; i < tries; ++i) {
      const double before = from + step_mm * steps(random_);
      EXPECT_FALSE(meets(before)) << before << " mm before its place";
    }
  }

  static bool meet(const checks::Scene& scene, const std::vector<Placed>& solids, const std::vector<Thing>& movers,
                   const Standing& standing, Vec3 at) {
    for (Thing t = 0; t < standing.size(); ++t) {
      if (!standing[t]) continue;
      for (const Thing m : movers) {
        const Box3 box = scene.body(m).outer.box;
        if (checks::apart({box.low + at, box.high + at}, scene.body(t).outer.box, -1e-3)) continue;
        const auto volume =
            solid::common_volume_mm3(solids[m].solid, solids[m].pose.moved(at), solids[t].solid, solids[t].pose);
        EXPECT_TRUE(volume);
        if (volume && *volume > 1e-3) return true;
      }
    }
    return false;
  }

  std::set<std::string> seen_;
  std::mt19937 random_{20261126};
};

TEST_F(Ways, OfEachKindInTheExamplesStopWhereTheKernelSays) {
  for (const auto& entry : std::filesystem::recursive_directory_iterator(FITUP_EXAMPLES)) {
    if (entry.path().extension() == ".toml") judge(entry.path());
  }
  std::cout << stopped_ << " stopped, " << free_ << " free\n";
  EXPECT_GT(stopped_, 30);
  EXPECT_GT(free_, 15);
}

}  // namespace
}  // namespace fitup

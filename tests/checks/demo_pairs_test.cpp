// Every pair of the example that comes near, decided by the rules and judged by the kernel; and how many pairs the
// rules leave open.
#include <filesystem>
#include <fstream>
#include <set>
#include <sstream>

#include <gtest/gtest.h>

#include "checks/contacts.h"
#include "checks/planned.h"
#include "fitup/layout.h"
#include "fitup/model.h"
#include "fitup/plan.h"
#include "fitup/spec.h"
#include "fitup/tolerances.h"

namespace fitup {
namespace {

using checks::Decision;

Plan plan_of_example() {
  std::ifstream file(FITUP_EXAMPLES "/park-locomotive/front-box.toml");
  std::ostringstream text;
  text << file.rdbuf();
  const SpecResult spec = read_spec("front-box.toml", text.str());
  return make_plan(lay_out(spec.spec.value())).plan.value();
}

std::set<std::pair<InstanceId, InstanceId>> threads(const Plan& plan) {
  std::set<std::pair<InstanceId, InstanceId>> pairs;
  for (const Joint& j : plan.joints) {
    if (j.kind == JointKind::thread) pairs.insert(std::minmax(j.a, j.b));
  }
  return pairs;
}

// Of pairs of parts, and of parts and beads, in each example.
TEST(ExamplePairs, AreLeftToTheKernelInFiveOfAHundredAtMost) {
  int examples = 0;
  for (const auto& entry : std::filesystem::recursive_directory_iterator(FITUP_EXAMPLES)) {
    if (entry.path().extension() != ".toml") continue;
    SCOPED_TRACE(entry.path());
    const auto box = test::planned(entry.path().string(), test::text_of(entry.path()));
    ASSERT_TRUE(box->plan);
    const checks::Scene scene(*box->plan, {});
    const checks::Contacts contacts = checks::find_contacts(scene, 1);
    std::size_t unsure = 0;
    std::size_t all = 0;
    for (const auto* pairs : {&contacts.instances, &contacts.zones, &contacts.beads}) {
      all += pairs->size();
      for (const auto& pair : *pairs) {
        if (pair.answer.decision != Decision::unsure) continue;
        ++unsure;
        std::cout << "left to the kernel: " << scene.words(pair.a) << " and " << scene.words(pair.b) << '\n';
      }
    }
    EXPECT_GT(all, 80U);
    EXPECT_LE(static_cast<double>(unsure), 0.05 * static_cast<double>(all));
    ++examples;
  }
  EXPECT_GE(examples, 7);
}

// A thread's annulus is common volume to the kernel and none to the rules: those pairs are left out here.
TEST(DemoPairs, TheKernelSaysTheSameOfEveryPair) {
  const Plan plan = plan_of_example();
  const auto model = build_model(plan);
  ASSERT_TRUE(model);
  const checks::Scene scene(plan, {});
  const auto in_thread = threads(plan);
  std::size_t judged = 0;
  for (const auto& pair : checks::find_contacts(scene, 1).instances) {
    if (pair.answer.decision == Decision::unsure || in_thread.contains({pair.a, pair.b})) continue;
    const Instance& a = plan.instances[pair.a];
    const Instance& b = plan.instances[pair.b];
    const Solid& first = model->parts[a.part].solid;
    const Solid& second = model->parts[b.part].solid;
    const auto volume = solid::common_volume_mm3(first, a.pose, second, b.pose);
    const auto distance = solid::distance_mm(first, a.pose, second, b.pose);
    ASSERT_TRUE(volume && distance);
    SCOPED_TRACE(testing::Message() << scene.label(pair.a) << " and " << scene.label(pair.b) << ": shared volume "
                                    << *volume << " mm3, distance " << *distance << " mm");
    EXPECT_EQ(pair.answer.decision == Decision::overlap, *volume > 1e-3);
    EXPECT_EQ(pair.answer.decision == Decision::clear, *distance > tolerance::contact_mm);
    ++judged;
  }
  EXPECT_GT(judged, 300U);
}

}  // namespace
}  // namespace fitup

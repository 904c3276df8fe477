// Derived members judged by rules and by the kernel.
// Entry: expect_sound.
#include "plan/sound.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "fitup/tolerances.h"
#include "plan/numbers_builder.h"
#include "plan/rules.h"

namespace fitup::test {

namespace {

double volume(const Solid& s) { return solid::measure(s)->volume_mm3; }

}  // namespace

Solid built(const Member& member) {
  Plan plan;
  plan.parts = {part_of(member)};
  auto model = build_model(plan);
  if (!model) throw std::runtime_error(model.error().operation + ": " + model.error().reason);
  return model->parts.front().solid;
}

Solid rolled(const plan::Obstacle& bar) {
  auto made = solid::extrude(profile_of(bar.section), Pose(), bar.length_mm);
  if (!made) throw std::runtime_error(made.error().reason);
  return *made;
}

void expect_same_volumes(const Member& member) {
  const Solid ours = built(member);
  const Solid theirs = from_numbers(member);
  const double expected = volume(theirs);
  const double allowed = tolerance::volume_relative * expected;
  EXPECT_NEAR(volume(ours), expected, allowed);
  EXPECT_NEAR(volume_mm3(part_of(member)), expected, allowed);
  // The same place too: what they share is all of both.
  const auto shared = solid::common_volume_mm3(ours, Pose(), theirs, Pose());
  ASSERT_TRUE(shared) << shared.error().reason;
  EXPECT_NEAR(*shared, expected, allowed);
}

void expect_sound(const plan::Obstacle& uncut, const Yielded& bar, const std::vector<plan::Obstacle>& earlier,
                  double gap_mm, double slack_mm) {
  SCOPED_TRACE("start A " + to_words(bar.member.start.a) + ", B " + to_words(bar.member.start.b) + "; end A " +
               to_words(bar.member.end.a) + ", B " + to_words(bar.member.end.b));
  ASSERT_TRUE(bar.result.ok) << bar.result.problem;
  EXPECT_THAT(shape_faults(bar.member), testing::IsEmpty());
  EXPECT_THAT(clearance_faults(bar, earlier, gap_mm), testing::IsEmpty());
  EXPECT_THAT(thickness_faults(bar, earlier, gap_mm), testing::IsEmpty());
  EXPECT_THAT(slack_faults(uncut, bar, earlier, slack_mm), testing::IsEmpty());
  expect_same_volumes(bar.member);
  const Solid ours = built(bar.member);
  for (const plan::Obstacle& other : earlier) {
    const auto gap = solid::distance_mm(ours, bar.pose, rolled(other), other.pose);
    ASSERT_TRUE(gap) << gap.error().reason;
    EXPECT_GE(*gap, gap_mm - tolerance::contact_mm) << other.name;
    const auto shared = solid::common_volume_mm3(ours, bar.pose, rolled(other), other.pose);
    ASSERT_TRUE(shared) << shared.error().reason;
    // Without a gap they touch, to the snap grid of 1e-6 mm: over some hundred square millimetres.
    EXPECT_LE(*shared, gap_mm > 0 ? 0 : 1e-3) << other.name;
  }
}

}  // namespace fitup::test

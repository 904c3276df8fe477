// What a foot under the toe of a standing leg is welded with: a full fillet on either side of the leg, in a metric and
// an inch shop. And how thick feet are that nothing is said of.
#include <gtest/gtest.h>

#include <cmath>
#include <map>
#include <string>

#include "checks/planned.h"
#include "fitup/findings.h"
#include "fitup/seams.h"

namespace fitup {
namespace {

std::unique_ptr<const test::Planned> sound_box_with(const std::vector<Override>& overrides) {
  return test::planned("sound.toml", test::text_of(test::sound_box()), overrides);
}

/// The laid fillets of each foot, by its name.
std::map<std::string, std::vector<Seam>> fillets_of_feet(const Plan& plan) {
  std::map<std::string, std::vector<Seam>> all;
  for (const Seam& seam : seams_of(plan).all) {
    const Joint& joint = plan.joints[seam.joint];
    for (const InstanceId id : {joint.a, joint.b}) {
      if (plan.parts[plan.instances[id].part].role != Role::foot) continue;
      if (seam.kind == SeamKind::fillet && seam.state == SeamState::laid) all[plan.instances[id].name].push_back(seam);
    }
  }
  return all;
}

/// One on either side of the leg, over the foot's width, its leg as thick as the ring's.
void have_full_fillets_on_two_sides(const Plan& plan, double leg_mm, double width_mm) {
  const auto feet = fillets_of_feet(plan);
  ASSERT_EQ(feet.size(), 4U);
  for (const auto& [name, seams] : feet) {
    ASSERT_EQ(seams.size(), 2U) << name;
    EXPECT_NEAR(seams[0].side.x + seams[1].side.x, 0, 1e-9) << name << ": opposite sides";
    EXPECT_NEAR(std::abs(seams[0].side.x), 1, 1e-9) << name;
    // The leg stands between them: they are as far apart as it is thick.
    EXPECT_NEAR(std::abs(seams[0].from.x - seams[1].from.x), leg_mm, 1e-6) << name;
    for (const Seam& seam : seams) {
      EXPECT_NEAR(seam.size_mm, leg_mm, 1e-6) << name;
      EXPECT_NEAR(seam.length_mm, width_mm, 1e-6) << name;
    }
  }
}

// Legs of 4 mm (EN 10056, L 40x40x4) on feet of 6; the plates over the sides begin above the beads.
TEST(FeetByRule, HaveFullFilletsOnBothSidesOfTheLegAboveThem) {
  const auto box = sound_box_with({{"box.main.feet", "{ thread = \"M8\" }"}});
  ASSERT_TRUE(box->plan);
  have_full_fillets_on_two_sides(*box->plan, 4, 50);
}

// L 2x2x3/16: 4.7625 mm, feet of 1/4 in and 2 in wide.
TEST(FeetByRule, HaveThemInAnInchShopToo) {
  const auto box = sound_box_with({{"shop", "\"inch\""},
                                   {"box.main.frame.section", "\"L 2x2x3/16 in\""},
                                   {"box.main.frame.uprights", "\"2x3/16 in\""},
                                   {"box.main.face.front.gap", "2.4"},
                                   {"box.main.feet", "{ thread = \"3/8-16\" }"}});
  ASSERT_TRUE(box->plan);
  have_full_fillets_on_two_sides(*box->plan, 4.7625, 50.8);
}

/// Of the feet under a box whose back has an outward ring of that width, and whether it stands on them.
void are_thick(double expected_mm, bool stands, double ring_mm, const std::vector<Override>& feet) {
  std::vector<Override> overrides{{"box.main.face.back.landing", "\"outward\""},
                                  {"box.main.face.back.landing_width", std::to_string(ring_mm)}};
  overrides.insert(overrides.end(), feet.begin(), feet.end());
  const auto box = sound_box_with(overrides);
  ASSERT_TRUE(box->plan);
  int feet_seen = 0;
  for (const Part& part : box->plan->parts) {
    if (part.role != Role::foot) continue;
    ++feet_seen;
    EXPECT_NEAR(std::get<Flat>(part.form).thickness_mm, expected_mm, 1e-9) << ring_mm;
  }
  EXPECT_GT(feet_seen, 0);
  int standing_seen = 0;
  for (const Finding& f : check_by_rules(*box->plan).all) {
    if (f.check != "standing") continue;
    ++standing_seen;
    EXPECT_EQ(f.verdict, stands ? Verdict::pass : Verdict::fail) << f.message;
  }
  EXPECT_GT(standing_seen, 0);
}

// The ring reaches as far below the frame as it is wide, and may be 1 mm off there (ISO 13920:1996, table 1, class B, 2 to
// 30 mm): for 19 mm the shelf has 20, for 20 mm it takes 25. What is stated stays.
TEST(FeetByRule, AreAsThickAsWhatHangsBelowAsksFor) {
  const Override by_rule{"box.main.feet", "{ thread = \"M8\" }"};
  are_thick(20, true, 19, {by_rule});
  are_thick(25, true, 20, {by_rule});
  are_thick(12, false, 20, {by_rule, {"box.main.feet.thickness", "12"}});
}

// 20 mm are 0.787 in, and 3/4 in is too little: 1 in; 30 mm are 1.18 in: 1 1/4.
TEST(FeetByRule, AreOfInchPlateWhereTheirBoltIsAnInchOneOrTheShopHasNoOther) {
  are_thick(25.4, true, 20, {{"box.main.feet", "{ thread = \"3/8-16\" }"}});
  are_thick(31.75, true, 30, {{"box.main.feet", "{ thread = \"3/8-16\" }"}});
  are_thick(25.4, true, 20, {{"box.main.feet", "{ thread = \"M8\" }"}, {"cutter.shelf", "\"gauge\""}});
}

}  // namespace
}  // namespace fitup

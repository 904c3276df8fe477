// Seams of the examples: the demo's sums by hand, and the kernel on the beads of all.
#include <gtest/gtest.h>

#include <cmath>
#include <filesystem>
#include <set>

#include "checks/planned.h"
#include "checks/seam_sums.h"
#include "fitup/findings.h"
#include "fitup/model.h"
#include "fitup/seams.h"
#include "fitup/spec.h"
#include "fitup/tolerances.h"

namespace fitup {
namespace {

using test::length_of;

constexpr double tiny = 1e-6;

const std::filesystem::path examples = std::filesystem::path(FITUP_EXAMPLES);

std::unique_ptr<const test::Planned> example(const std::string& name, const std::vector<Override>& overrides = {}) {
  const auto path = examples / name;
  return test::planned(path.string(), test::text_of(path), overrides);
}

std::vector<Seam> between(const Plan& plan, const std::string& a, const std::string& b) {
  std::vector<Seam> out;
  for (const Seam& s : seams_of(plan).all) {
    const Joint& joint = plan.joints[s.joint];
    const std::set<std::string> names{plan.instances[joint.a].name, plan.instances[joint.b].name};
    if (names == std::set{a, b}) out.push_back(s);
  }
  return out;
}

// Rail 2 is 50 mm wide and reaches over the front leg of 40 mm from Y 6; the leg goes on to either side and before it.
TEST(SeamsOfTheDemo, OfARailAreItsSidesItsEndAndTheLegsToeUnderIt) {
  const auto box = example("park-locomotive/front-box.toml");
  const auto seams = between(*box->plan, "rail 2", "bottom ring member front");
  EXPECT_NEAR(length_of(seams, SeamKind::fillet), 2 * (40 - 6) + 50 + 50, tiny);
  for (const Seam& s : seams) EXPECT_NEAR(s.size_mm, 4, tiny) << "as the leg is thick; the rail has 5 mm";
}

// The left plate begins at Y 32 on the upright that reaches from 0 to 40 over 40..288: its edge outside, the upright's
// edge inside.
TEST(SeamsOfTheDemo, OfASidePlateAndAnUprightAreOneOutsideAndOneInside) {
  const auto box = example("park-locomotive/front-box.toml");
  const auto seams = between(*box->plan, "left plate", "upright front left");
  ASSERT_EQ(seams.size(), 2U);
  for (const Seam& s : seams) {
    EXPECT_NEAR(s.length_mm, 288 - 40, tiny);
    EXPECT_NEAR(s.size_mm, 2, tiny);
  }
  EXPECT_NE(is_outside(*box->plan, seams[0]), is_outside(*box->plan, seams[1]));
}

TEST(SeamsOfTheDemo, OfABossAreOneRingAboveTheLeg) {
  const auto box = example("park-locomotive/front-box.toml");
  const auto seams = between(*box->plan, "lift boss 1", "top ring member left");
  ASSERT_EQ(seams.size(), 1U) << "below, the root of the angle is in the way";
  EXPECT_NEAR(seams[0].length_mm, M_PI * 25, tiny);
  EXPECT_NEAR(seams[0].size_mm, 4, tiny);
}

// A root gap of 1 mm between the standing legs, whose roots and toes leave 27 mm straight: the cap outside, a fillet in
// the corner.
TEST(SeamsOfTheDemo, OfACopedCornerAreACapOutsideAndAFilletInside) {
  const auto box = example("park-locomotive/front-box.toml");
  const auto seams = between(*box->plan, "top ring member left", "top ring member front");
  EXPECT_GT(length_of(seams, SeamKind::butt), 27);
  EXPECT_NEAR(length_of(seams, SeamKind::fillet), 27, 1);
}

// A frame of 336 x 329 mm with 2 mm all round: the flanges of L 30x30x3 stand 3 + 2 mm outside of it, so that their
// toes are 25 mm inside of its edges. The mitres gape by 1 mm, which takes 0.707 mm of the toe's line at either end.
TEST(SeamsOfAnAngleFlange, RunAlongItsToeFromMitreToMitre) {
  const auto beside_it = test::sound_box().parent_path() / "angle.toml";
  const auto box = test::planned(beside_it.string(),
                                 "fitup = 1\nstart_from = \"sound.toml\"\n"
                                 "[box.main.face.front]\nflanges = \"angle\"\ngap = 2\n");
  ASSERT_TRUE(box->plan);
  EXPECT_TRUE(seams_of(*box->plan).undecided.empty());
  const auto fillet_of = [&](const std::string& flange) {
    auto seams = between(*box->plan, flange, "front cover sheet");
    std::erase_if(seams, [](const Seam& seam) { return seam.kind != SeamKind::fillet; });
    EXPECT_EQ(seams.size(), 1U) << flange;
    return seams.empty() ? Seam{} : seams.front();
  };
  const double mitre = 1 / std::sqrt(2.0);
  const Seam top = fillet_of("front cover flange top");
  EXPECT_NEAR(top.length_mm, 336 - 2 * 25 - 2 * mitre, 1e-4);
  EXPECT_NEAR(top.from.z, 329 + 5 - 30, tiny);
  EXPECT_NEAR(top.from.y, -2, tiny) << "on the sheet of 2 mm";
  EXPECT_NEAR(top.size_mm, 2, 1e-3) << "as high as the sheet is thick";
  // From the sheet's lower edge.
  EXPECT_NEAR(fillet_of("front cover flange left").length_mm, 304 - mitre - 2, 1e-4);
  EXPECT_NEAR(fillet_of("front cover flange right").length_mm, 304 - mitre - 2, 1e-4);
}

class EachExample : public testing::TestWithParam<std::string> {};

TEST_P(EachExample, HasBeadsThatTheKernelSaysTouchBothPartsAndEnterNeither) {
  for (const char* sides : {"clear", "all"}) {
    const auto box = example(GetParam(), {{"box.main.welds.sides", sides}});
    ASSERT_TRUE(box->plan);
    const Plan& plan = *box->plan;
    const auto model = build_model(plan);
    ASSERT_TRUE(model);
    const auto beads = beads_of(plan, seams_of(plan));
    EXPECT_GT(beads.size(), 20U);
    for (const Bead& bead : beads) {
      const auto solid = solid::extrude(bead.prism.profile, Pose{}, bead.prism.length_mm);
      ASSERT_TRUE(solid);
      for (const InstanceId id : {bead.a, bead.b}) {
        const Instance& instance = plan.instances[id];
        const Solid& part = model->parts[instance.part].solid;
        const auto volume = solid::common_volume_mm3(*solid, bead.prism.pose, part, instance.pose);
        const auto distance = solid::distance_mm(*solid, bead.prism.pose, part, instance.pose);
        ASSERT_TRUE(volume && distance);
        EXPECT_LE(*volume, 1e-3) << "bead of " << plan.instances[bead.a].name << " and " << plan.instances[bead.b].name
                                 << " in " << instance.name << " at " << bead.prism.pose.origin().x << " "
                                 << bead.prism.pose.origin().y << " " << bead.prism.pose.origin().z;
        EXPECT_LE(*distance, tolerance::contact_mm) << "bead of " << plan.instances[bead.a].name << " and "
                                                    << plan.instances[bead.b].name << " off " << instance.name;
      }
    }
  }
}

INSTANTIATE_TEST_SUITE_P(All, EachExample,
                         testing::Values("park-locomotive/front-box.toml", "park-locomotive/front-box-with-lower.toml",
                                         "orchard-sprayer/battery-box.toml", "cabin-inverter/cabinet.toml",
                                         "workboat-locker/locker.toml"));

}  // namespace
}  // namespace fitup

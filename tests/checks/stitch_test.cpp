// Intermittent seams: where their elements lie in closed form, which seams of a box are, and what is said of elements
// that are too short or too far apart.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <map>
#include <set>

#include "checks/planned.h"
#include "checks/stitch_rules.h"
#include "fitup/findings.h"
#include "fitup/seams.h"

namespace fitup {
namespace {

constexpr double tiny = 1e-6;

// n elements and n - 1 gaps fill the seam: n l + (n - 1) e = L, with the fewest that keep e within what is asked.
TEST(ElementsOnASeam, FillItFromEndToEnd) {
  for (const double length : {90.0, 105.0, 250.0, 411.3, 984.0}) {
    const auto stitch = stitch_on(length, 40, 25);
    ASSERT_TRUE(stitch) << length;
    const auto n = static_cast<double>(stitch->count);
    EXPECT_NEAR(n * 40 + (n - 1) * stitch->gap_mm, length, tiny);
    EXPECT_LE(stitch->gap_mm, 25 + tiny);
    if (n <= 2) continue;
    EXPECT_GT((length - (n - 1) * 40) / (n - 2), 25) << "one less would leave wider gaps";
  }
}

TEST(ElementsOnASeam, FitEvenlyWhereTheSeamIsThatLong) {
  const auto stitch = stitch_on(5 * 40 + 4 * 25, 40, 25);
  ASSERT_TRUE(stitch);
  EXPECT_EQ(stitch->count, 5U);
  EXPECT_NEAR(stitch->gap_mm, 25, tiny);
}

TEST(ElementsOnASeam, AreNoneWhereNoTwoFindRoomBesideAGap) {
  EXPECT_FALSE(stitch_on(40, 40, 25));
  EXPECT_FALSE(stitch_on(89.9, 40, 25)) << "a gap of 9.9 mm";
  EXPECT_EQ(stitch_on(90, 40, 25)->count, 2U);
  EXPECT_FALSE(stitch_on(500, 40, 0));
  EXPECT_FALSE(stitch_on(500, 0, 25));
}

InstanceId add_block(Plan& plan, Vec3 low, Vec3 high) {
  const Vec3 size = high - low;
  Part part;
  part.source = Source::sawn;
  part.form = Solidform{{Prism{{Loop::rectangle({0, 0}, {size.x, size.y}), {}}, Pose{}, size.z}}};
  plan.parts.push_back(part);
  Instance instance;
  instance.part = plan.parts.size() - 1;
  instance.pose = Pose::at(low);
  instance.name = "block " + std::to_string(plan.parts.size());
  plan.instances.push_back(instance);
  return plan.instances.size() - 1;
}

/// A strip 300 x 60 x 3 on a plate.
Plan strip_on_plate(double element_mm, double gap_mm) {
  Plan plan;
  const InstanceId plate = add_block(plan, {0, 0, 0}, {400, 100, 10});
  const InstanceId strip = add_block(plan, {50, 20, 10}, {350, 80, 13});
  plan.joints.push_back({plate, strip, JointKind::weld, axis::z, 0});
  WeldRule rule;
  rule.element_mm = element_mm;
  rule.distance_mm = gap_mm;
  rule.stitch_key = "stitch";
  plan.weld_rules = {rule};
  return plan;
}

TEST(AnIntermittentSeam, HasABeadForEachElementOneAtEachEnd) {
  const Plan plan = strip_on_plate(36, 30);
  const Seams seams = seams_of(plan);
  ASSERT_EQ(seams.all.size(), 4U);
  double beads_mm3 = 0;
  std::map<std::size_t, Box3> reach;
  for (const Bead& bead : beads_of(plan, seams)) {
    beads_mm3 += bead.prism.volume_mm3();
    reach[bead.seam].add(bead.prism.bounds());
  }
  double metal = 0, weld = 0;
  for (std::size_t i = 0; i < seams.all.size(); ++i) {
    const Seam& seam = seams.all[i];
    metal += metal_mm3(seam);
    weld += weld_mm(seam);
    // 300 = 5 x 36 + 4 x 30; of 60 no two elements of 36.
    EXPECT_EQ(seam.stitch.has_value(), seam.length_mm > 100);
    EXPECT_NEAR(std::abs(dot(reach[i].size(), (1 / seam.length_mm) * (seam.to - seam.from))), seam.length_mm, tiny);
  }
  EXPECT_NEAR(weld, 2 * 5 * 36 + 2 * 60, tiny);
  EXPECT_NEAR(metal, weld * 3 * 3 / 2, tiny);
  EXPECT_NEAR(beads_mm3, metal, 1e-4);
}

TEST(AnIntermittentSeam, IsLaidOnWhatNothingStandsIn) {
  Plan plan = strip_on_plate(36, 30);
  // A block on the plate, against the middle 24 mm of one long side.
  add_block(plan, {188, 0, 10}, {212, 20, 40});
  const Seams seams = seams_of(plan);
  std::size_t halves = 0;
  for (const Seam& seam : seams.all) {
    EXPECT_FALSE(seam.stitch && seam.state == SeamState::left_free);
    if (std::abs(seam.length_mm - 138) > tiny) continue;
    ++halves;
    ASSERT_TRUE(seam.stitch);
    EXPECT_EQ(seam.stitch->count, 3U);
    EXPECT_NEAR(seam.stitch->gap_mm, (138 - 3 * 36) / 2.0, tiny);
  }
  EXPECT_EQ(halves, 2U);
}

// Six throats of a leg of 8 mm are 33.9 mm; 12 x 3 mm. A36, 36 ksi: 0.75 sqrt(29000 / 36) = 21.29 thicknesses; 50 ksi:
// 18.06.
TEST(TheLeastElement, AndTheWidestGapAreThoseOfTheRulesThatSeamsAreJudgedBy) {
  const auto en = checks::element_limits(WeldCode::en_1993_1_8, 2 * std::sqrt(0.5), 2, {3, 235});
  EXPECT_NEAR(en.least_mm, 30, tiny);
  EXPECT_NEAR(en.largest_mm, 36, tiny);
  EXPECT_NEAR(checks::element_limits(WeldCode::en_1993_1_8, 8 * std::sqrt(0.5), 8, {30, 235}).least_mm, 33.941, 1e-3);
  EXPECT_NEAR(checks::element_limits(WeldCode::en_1993_1_8, 8 * std::sqrt(0.5), 8, {30, 235}).largest_mm, 200, tiny);
  const auto us = checks::element_limits(WeldCode::aws_d1_1, 2 * std::sqrt(0.5), 2, {3, 248.2});
  EXPECT_NEAR(us.least_mm, 38.1, tiny);
  EXPECT_NEAR(us.largest_mm, 3 * 21.29, 0.01);
  EXPECT_NEAR(checks::element_limits(WeldCode::aws_d1_1, 2, 3, {3, 344.7}).largest_mm, 3 * 18.06, 0.02);
  // 5083-H111 of 125 MPa: 0.75 sqrt(10100 ksi / 18.13 ksi) = 17.70, not the 30 of steel's 29000 ksi.
  const auto aluminium = checks::element_limits(WeldCode::aws_d1_1, 2, 3, {3, 125, true});
  EXPECT_NEAR(aluminium.largest_mm, 3 * 17.70, 0.02);
  EXPECT_NE(std::string(aluminium.largest_of).find("Aluminum Design Manual"), std::string::npos);
  EXPECT_NEAR(checks::element_limits(WeldCode::aws_d1_1, 10, 12, {30, 248.2}).least_mm, 48, tiny);
  EXPECT_NEAR(checks::element_limits(WeldCode::aws_d1_1, 10, 12, {30, 248.2}).largest_mm, 304.8, tiny);
}

struct Stitched {
  std::size_t seams = 0;
  std::set<Role> roles;
  std::set<std::string> keys;
  std::set<std::string> plates;
};

Stitched stitched(const Plan& plan) {
  Stitched found;
  for (const Seam& seam : seams_of(plan).all) {
    const Joint& joint = plan.joints[seam.joint];
    if (!seam.stitch) continue;
    ++found.seams;
    found.keys.insert(plan.weld_rules[joint.weld_rule].stitch_key);
    for (const InstanceId id : {joint.a, joint.b}) {
      const Role role = plan.parts[plan.instances[id].part].role;
      found.roles.insert(role);
      if (role == Role::face_plate) found.plates.insert(plan.instances[id].name);
    }
  }
  return found;
}

Stitched of_example(const std::string& path, const std::vector<Override>& overrides) {
  const auto file = std::filesystem::path(FITUP_SOURCE) / "examples" / path;
  const auto made = test::planned(file.string(), test::text_of(file), overrides);
  EXPECT_TRUE(made->plan) << path;
  return made->plan ? stitched(*made->plan) : Stitched{};
}

TEST(SeamsOfABox, AreContinuousUnlessItSaysOtherwise) {
  EXPECT_EQ(of_example("park-locomotive/front-box.toml", {}).seams, 0U);
}

TEST(SeamsOfABox, OfFacePlatesAloneAreIntermittent) {
  const Stitched found =
      of_example("park-locomotive/front-box.toml", {{"box.main.welds.stitch", "{ length = 40, gap = 20 }"}});
  EXPECT_GT(found.seams, 8U);
  EXPECT_EQ(found.roles, (std::set{Role::face_plate, Role::ring_member, Role::upright}));
  EXPECT_EQ(found.plates, (std::set<std::string>{"left plate", "right plate"}));
  EXPECT_EQ(found.keys, (std::set<std::string>{"box.main.welds.stitch"}));
}

TEST(SeamsOfABox, OfOneFaceFollowWhatThatFaceSays) {
  const Stitched left =
      of_example("park-locomotive/front-box.toml", {{"box.main.face.left.stitch", "{ length = 40, gap = 20 }"}});
  EXPECT_EQ(left.plates, (std::set<std::string>{"left plate"}));
  EXPECT_EQ(left.keys, (std::set<std::string>{"box.main.face.left.stitch"}));
  const Stitched right =
      of_example("park-locomotive/front-box.toml", {{"box.main.welds.stitch", "{ length = 40, gap = 20 }"},
                                                    {"box.main.face.left.stitch", "{ length = 40, gap = 0 }"}});
  EXPECT_EQ(right.plates, (std::set<std::string>{"right plate"}));
}

// And where rails lie on the floor.
TEST(SeamsOfABox, OfPlatesAreIntermittentWhereAWallClosesAFace) {
  const Stitched found =
      of_example("park-locomotive/front-box-plate.toml", {{"box.main.welds.stitch", "{ length = 30, gap = 24 }"}});
  EXPECT_GT(found.seams, 4U);
  EXPECT_EQ(found.roles, (std::set{Role::rail, Role::wall}));
}

/// What `welds` says of an example.
std::vector<Finding> findings_of(const std::string& path, const std::vector<Override>& overrides) {
  const auto file = std::filesystem::path(FITUP_SOURCE) / "examples" / path;
  const auto made = test::planned(file.string(), test::text_of(file), overrides);
  EXPECT_TRUE(made->plan) << path;
  if (!made->plan) return {};
  std::vector<Finding> found = check_by_rules(*made->plan).all;
  std::erase_if(found, [](const Finding& f) { return f.check != "welds"; });
  return found;
}

// AISC 360, J2.2b, from memory: 1 1/2 in. An element of 1 in is too short; of 1 1/2 in it counts.
TEST(SeamsOfABox, InInchesAreJudgedByTheRulesThatItNames) {
  const auto with = [](const char* length) {
    const std::string stitch = "{ length = \"" + std::string(length) + "\", gap = \"1 in\" }";
    return std::vector<Override>{{"box.main.welds.stitch", stitch}, {"loads.welds", "\"AWS D1.1\""}};
  };
  const std::string sprayer = "orchard-sprayer/battery-box.toml";
  EXPECT_GT(of_example(sprayer, with("1 1/2 in")).seams, 4U);
  const auto too_short = [](const Finding& f) { return f.verdict == Verdict::fail && f.cause.starts_with("elements of"); };
  std::size_t fails = 0;
  for (const Finding& f : findings_of(sprayer, with("1 in"))) {
    if (!too_short(f)) continue;
    ++fails;
    EXPECT_NEAR(f.value.value_or(0), 25.4, tiny);
    EXPECT_NEAR(f.limit.value_or(0), 38.1, tiny);
    EXPECT_NE(f.source.find("AISC 360, J2.2b"), std::string::npos) << f.source;
  }
  EXPECT_EQ(fails, 1U);
  for (const Finding& f : findings_of(sprayer, with("1 1/2 in"))) EXPECT_FALSE(too_short(f)) << f.message;
}

// EN 1993-1-8, 4.3.5, from memory: intermittent butt welds are not used. A plate between the members ends where they do.
TEST(SeamsOfABox, OfAPlateBetweenTheMembersAreIntermittentWhereTheyAreFillets) {
  const std::string path = "park-locomotive/front-box.toml";
  const std::vector<Override> inset{{"box.main.face.left.set", "\"inset\""},
                                    {"box.main.face.left.stitch", "{ length = 40, gap = 20 }"}};
  const auto file = std::filesystem::path(FITUP_SOURCE) / "examples" / path;
  const auto made = test::planned(file.string(), test::text_of(file), inset);
  ASSERT_TRUE(made->plan);
  std::size_t caps = 0;
  for (const Seam& seam : seams_of(*made->plan).all) {
    const WeldRule& rule = made->plan->weld_rules[made->plan->joints[seam.joint].weld_rule];
    if (rule.element_mm <= 0 || seam.state == SeamState::left_free || seam.kind == SeamKind::fillet) continue;
    ++caps;
    EXPECT_FALSE(seam.stitch) << to_text(seam.kind);
  }
  EXPECT_GT(caps, 0U);
  std::string all;
  for (const Finding& f : findings_of(path, inset)) all += f.message + "\n";
  EXPECT_NE(all.find(std::to_string(caps) + " seams that were asked to be intermittent stay continuous: butt or edge seams"),
            std::string::npos)
      << all;
}

// Elements of 40 mm with gaps of at most 12 mm: on a seam of 150 mm the fewest are 4, and 160 mm of them have no room.
TEST(SeamsOfABox, ThatStayContinuousAreCounted) {
  std::string all;
  for (const Finding& f : findings_of("park-locomotive/front-box.toml",
                                      {{"box.main.welds.stitch", "{ length = 500, gap = 20 }"}}))
    all += f.message + "\n";
  EXPECT_NE(all.find("would stand less than 10.00 mm apart there"), std::string::npos) << all;
  EXPECT_FALSE(stitch_on(150, 40, 12));
}

// Elements of 20 mm count for nothing (EN 1993-1-8, 4.5.1, from memory: 30 mm), and the edges of an inset plate stay
// continuous: the one does not keep the other from being told.
TEST(SeamsOfABox, ThatStayContinuousAreCountedWhereTheElementsFailToo) {
  bool told = false;
  bool passes = false;
  for (const Finding& f : findings_of("park-locomotive/front-box.toml",
                                      {{"box.main.face.left.set", "\"inset\""},
                                       {"box.main.face.left.stitch", "{ length = 20, gap = 20 }"}})) {
    told |= f.verdict == Verdict::fail && f.message.find("stay continuous: butt or edge seams") != std::string::npos;
    passes |= f.verdict == Verdict::pass;
  }
  EXPECT_TRUE(told);
  EXPECT_FALSE(passes);
}

}  // namespace
}  // namespace fitup

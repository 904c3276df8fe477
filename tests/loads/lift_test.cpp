// What lifting eyes are rated for, and how the whole hangs, on small plans.
#include "loads/lift.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

#include "checks/shapes.h"
#include "loads/boss.h"
#include "loads/weight_check.h"

namespace fitup {
namespace {

using loads::check_balance;
using loads::check_lift;
using loads::check_weight;

const std::vector<Vec3> corners{{0, 0, 300}, {800, 0, 300}, {800, 500, 300}, {0, 500, 300}};

/// Bosses at height 300, four at the corners of 800 x 500 if nothing else is said, and one thing of that mass in the
/// middle of `at`.
Plan hanging(double mass_kg, Vec3 at, const std::string& thread = "M10", const std::vector<Vec3>& points = corners) {
  Plan plan;
  plan.frames.push_back({"main", {{0, 0, 0}, {800, 500, 300}}});
  const auto add = [&plan](Role role, double mass, Vec3 middle) {
    Part part;
    part.mark = role == Role::boss ? "BOS01" : "ITM01";
    part.role = role;
    part.source = Source::stand_in;
    part.mass_kg = mass;
    part.form = Solidform{{generated::along_z(generated::box({0, 0}, {10, 10}), 0, 10)}};
    plan.parts.push_back(part);
    Instance i;
    i.part = plan.parts.size() - 1;
    i.pose = Pose::at(middle - Vec3{5, 5, 5});
    i.name = "no " + std::to_string(plan.instances.size());
    plan.instances.push_back(i);
    return plan.instances.size() - 1;
  };
  for (const Vec3 p : points) plan.lift_points.push_back({add(Role::boss, 0, p), p, thread});
  add(Role::item, mass_kg, at);
  return plan;
}

constexpr Vec3 middle{400, 250, 150};
// Eyes that are not drawn weigh with the rest: DIN 580 M8 0.06 kg, M10 0.11 kg each.
double mass_with_eyes(double kg, const std::string& thread) { return kg - 4 * tables::find_eye(thread)->mass_kg; }

Weights weights_of(const Plan& plan) { return weigh(plan, {}); }

// The eyes are said with their mass where there are some, and else no word of lifting.
TEST(WeightCheck, SpeaksOfEyesOnlyWhereTheWholeIsLifted) {
  Plan plan = hanging(mass_with_eyes(180, "M8"), middle, "M8");
  EXPECT_THAT(check_weight(plan, weights_of(plan)).front().message,
              testing::HasSubstr("; as lifted, with the eyes, 180.0 kg. Masses"));
  plan.lift_points.clear();
  EXPECT_THAT(check_weight(plan, weights_of(plan)).front().message,
              testing::AllOf(testing::Not(testing::HasSubstr("eyes")), testing::HasSubstr("kg. Masses")));
}

// On two points 800 mm apart 20 kg that overhang one end by 200 mm relieve the other, beside which 90 kg of steel
// stand: 67.5 kg when it is empty, 62.5 loaded.
TEST(LiftCheck, CountsTheEmptyWholeWhereThatPullsMore) {
  const auto value = [](double overhanging_kg) {
    Plan plan = hanging(overhanging_kg, {1000, 250, 150}, "M10", {{0, 250, 300}, {800, 250, 300}});
    Part steel = plan.parts.back();
    steel.role = Role::wall;
    steel.mass_kg = 90;
    plan.parts.push_back(steel);
    Instance i = plan.instances.back();
    i.part = plan.parts.size() - 1;
    i.pose = Pose::at({195, 245, 145});
    plan.instances.push_back(i);
    return check_lift(plan, weights_of(plan), {}).front();
  };
  const Finding with = value(20), without = value(0);
  EXPECT_THAT(with.message, testing::StartsWith("empty, which pulls more than loaded, the whole is"));
  EXPECT_THAT(without.message, testing::StartsWith("as lifted the whole is"));
  EXPECT_NEAR(*with.value, 1.15 * 67.5, 1e-6);
}

// DIN 580 and ASME B18.15: what is said in words is the limit, and never more.
TEST(LiftCheck, SaysNoRatingHigherThanItIs) {
  for (const char* thread : {"M8", "M10", "3/8-16", "1/2-13"}) {
    const Plan plan = hanging(40, middle, thread);
    const auto found = check_lift(plan, weights_of(plan), {});
    ASSERT_EQ(found.size(), 2U) << thread;
    for (const Finding& f : found) {
      const std::size_t at = f.message.find("rated for ");
      ASSERT_NE(at, std::string::npos);
      const double said = std::stod(f.message.substr(at + 10));
      EXPECT_LE(said, *f.limit + 1e-6) << f.message;
      EXPECT_NEAR(said, *f.limit, 0.01) << f.message;
    }
  }
}

// DIN 580: four M8 eyes under 180 kg hang on two legs: 90 kg each, 103.5 kg with 1.15 for the hoist, of 95 kg. M10: 170
// kg.
TEST(LiftCheck, FourEyesUnder180KilogramsFailInM8AndPassInM10) {
  for (const auto& [thread, verdict] : {std::pair{"M8", Verdict::fail}, {"M10", Verdict::pass}}) {
    const Plan plan = hanging(mass_with_eyes(180, thread), middle, thread);
    const auto found = check_lift(plan, weights_of(plan), {});
    ASSERT_EQ(found.size(), 2U);
    EXPECT_EQ(found[0].verdict, verdict);
    EXPECT_NEAR(*found[0].value, 103.5, 1e-6);
    // The second line: 103.5 kg / cos 45 against the axial 140 and 230 kg.
    EXPECT_NEAR(*found[1].value, 103.5 * std::sqrt(2.0), 1e-6);
    EXPECT_NEAR(*found[1].limit, thread == std::string("M8") ? 140 : 230, 1e-9);
  }
}

// The mass is known to 2 percent where it is given: within that of the rating it is marginal.
TEST(LiftCheck, IsMarginalWithinWhatTheMassMayBeOff) {
  const std::pair<double, Verdict> cases[] = {{94, Verdict::marginal}, {90, Verdict::pass}, {96, Verdict::fail}};
  for (const auto& [share, verdict] : cases) {
    const Plan plan = hanging(mass_with_eyes(2 * share / 1.15, "M8"), middle, "M8");
    EXPECT_EQ(check_lift(plan, weights_of(plan), {})[0].verdict, verdict) << share;
  }
}

TEST(LiftCheck, TwiceTheMassIsTwiceTheShareAndASteeperSlingPullsLess) {
  const Plan one = hanging(mass_with_eyes(100, "M10"), {360, 230, 100});
  const Plan two = hanging(mass_with_eyes(200, "M10"), {360, 230, 100});
  // The eyes balance the middle, the item does not: the share changes a little.
  EXPECT_NEAR(*check_lift(two, weights_of(two), {})[0].value / *check_lift(one, weights_of(one), {})[0].value, 2, 1e-3);
  LoadRules steep;
  steep.sling_angle_deg = 30;
  EXPECT_NEAR(*check_lift(one, weights_of(one), steep)[1].value / *check_lift(one, weights_of(one), {})[1].value,
              std::cos(0.7853981634) / std::cos(0.5235987756), 1e-9);
}

TEST(LiftCheck, IsSilentWithoutLiftPoints) {
  EXPECT_TRUE(check_lift(Plan{}, Weights{}, {}).empty());
  EXPECT_TRUE(check_balance(Plan{}, Weights{}, {}).empty());
}

TEST(BalanceCheck, TiltIsOffsetOverDepthUnderTheHook) {
  const Plan plan = hanging(mass_with_eyes(180, "M10"), {440, 250, 150});
  const auto found = check_balance(plan, weights_of(plan), {});
  ASSERT_EQ(found.size(), 1U);
  const MassAt whole = weights_of(plan).whole(LoadState::as_lifted);
  // Legs at 45 degrees: the hook is half a diagonal above the points.
  const double hook = 300 + std::hypot(400, 250);
  EXPECT_NEAR(*found[0].value, std::atan((whole.centre.x - 400) / (hook - whole.centre.z)) * 180 / 3.14159265358979,
              1e-6);
  EXPECT_EQ(found[0].verdict, Verdict::pass);
}

TEST(BalanceCheck, OutsideThePointsItTips) {
  const Plan plan = hanging(mass_with_eyes(180, "M10"), {400, -60, 150});
  const auto found = check_balance(plan, weights_of(plan), {});
  EXPECT_EQ(found[0].verdict, Verdict::fail);
  EXPECT_NEAR(*found[0].value, -weights_of(plan).whole(LoadState::as_lifted).centre.y, 1e-9);
  EXPECT_TRUE(check_lift(plan, weights_of(plan), {}).empty()) << "nothing is shared where nothing balances";
}

// By hand: the line is 50 mm beside the centre of mass and 150 mm above it: atan(50 / 150) = 18.43 degrees. Each eye
// takes half. The eyes, 0.11 kg each, are of no account under ten tonnes.
TEST(BalanceCheck, OnTwoPointsItTurnsUntilItsCentreIsBelowTheLine) {
  const std::vector<Vec3> two{{0, 200, 300}, {800, 200, 300}};
  const Plan plan = hanging(10000, middle, "M10", two);
  const auto found = check_balance(plan, weights_of(plan), {});
  ASSERT_EQ(found.size(), 1U);
  EXPECT_NEAR(*found[0].value, 18.43, 0.01);
  EXPECT_EQ(found[0].verdict, Verdict::fail) << "fixed eyes are pulled out of their plane";
  EXPECT_NE(found[0].message.find("Y 250 mm"), std::string::npos) << found[0].message;
  EXPECT_NEAR(*check_lift(plan, weights_of(plan), {})[0].value, 1.15 * 5000, 1);
  const Plan high = hanging(10000, {400, 200, 350}, "M10", two);
  const auto over = check_balance(high, weights_of(high), {});
  EXPECT_EQ(over[0].verdict, Verdict::fail) << "above the line it turns over";
  EXPECT_NE(over[0].message.find("turns over"), std::string::npos);
  const Plan beyond = hanging(10000, {850, 200, 150}, "M10", two);
  const auto tips = check_balance(beyond, weights_of(beyond), {});
  EXPECT_EQ(tips[0].verdict, Verdict::fail);
  EXPECT_NEAR(*tips[0].value, 50, 0.01);
}

// The circle through (0, 0), (800, 0) and (400, 500) has its centre at Y (500^2 - 400^2) / (2 x 500) = 90; over it
// three legs are of equal length. There the third point takes 90 / 500 of the weight, the others half of the rest each.
TEST(BalanceCheck, OnThreePointsTheHookStandsOverTheirCircle) {
  const Plan plan = hanging(10000, {400, 90, 150}, "M10", {{0, 0, 300}, {800, 0, 300}, {400, 500, 300}});
  const auto found = check_balance(plan, weights_of(plan), {});
  ASSERT_EQ(found.size(), 1U);
  EXPECT_NEAR(*found[0].value, 0, 0.01);
  const auto lift = check_lift(plan, weights_of(plan), {});
  EXPECT_NEAR(*lift[0].value, 1.15 * 10000 * (1 - 0.18) / 2, 1);
  EXPECT_NE(lift[0].message.find("on its three legs"), std::string::npos) << lift[0].message;
}

// A cantilever strip by hand: 1200 N at 13 mm over 25 + 26 mm, 4 mm thick: 15600 / 51 / 4 = 76.5 MPa.
TEST(BossCheck, TheLegIsAStripWithAPlasticSection) {
  EXPECT_NEAR(loads::leg_bending_mpa({1200, 0, 0}, 13, 25, 4), 1200 * 13.0 / 51 / 4, 1e-9);
  EXPECT_NEAR(loads::leg_bending_mpa({1200, 0, 0}, 13, 25, 8), 1200 * 13.0 / 51 / 16, 1e-9) << "a doubler quarters it";
}

// Two rings of throat 2.83 round 25 mm: 1200 N over 2 pi 25 2.83.
TEST(BossCheck, RingsShareThePullByTheirThroats) {
  Seam ring;
  ring.kind = SeamKind::fillet;
  ring.size_mm = 4;
  ring.ring_diameter_mm = 25;
  const double area = 2 * 3.14159265358979 * 25 * 4 / std::sqrt(2.0);
  EXPECT_NEAR(loads::ring_weld_mpa({1200, 0, 0}, {ring, ring}), 1200 / area, 1e-6);
  EXPECT_NEAR(loads::ring_weld_mpa({0, 1200, 0}, {ring, ring}), 1200 / area, 1e-6);
}

}  // namespace
}  // namespace fitup

// What the bolt of a lug does, through the seams of the lug's doubler.
#include "loads/foot_seams.h"

#include <gtest/gtest.h>

#include <cmath>

#include "loads/thin_seams.h"
#include "loads/thrown.h"
#include "lug_on_wall.h"

namespace fitup::loads {
namespace {

constexpr double kg = 100;
constexpr double g = 3;
constexpr std::size_t back = 1;

/// Of `kg` whose centre is at the one bolt, thrown off the wall with `g`.
FootSeams seams_of(test::LugOnWall wall, WeldCode code = WeldCode::en_1993_1_8) {
  wall.plan.load_rules.thrown_g[back] = g;
  wall.plan.load_rules.welds = code;
  wall.hole.thread = "M8";
  Pattern pattern;
  pattern.key = "box.main.face.left.lugs";
  pattern.bodies.push_back({wall.wall, {wall.hole}});
  wall.plan.patterns.push_back(pattern);
  Weights weights;
  weights.totals.push_back({"", LoadState::loaded, {kg, 0, wall.hole.at}});
  return worst_foot_seams(wall.plan, wall.seams, weights);
}

// A doubler of b x d = 40 x 80 mm welded all round with legs of 3 mm: A = 2 a (b + d), and per unit of throat (Shigley,
// table 9-1 and 9-2, from memory; Blodgett has the same) J_u = (b + d)^3 / 6, about the short way I_u = b^2 (b + 3 d) / 6,
// about the long one d^2 (d + 3 b) / 6. The bolt stands 40 mm beside its middle and 3 mm before it; it pulls off with g
// times the weight and hangs with the weight itself. The lower corner next to the bolt takes the most.
TEST(FootSeams, ADoublerTakesAllOfTheBoltAsATextbooksRectangle) {
  constexpr double b = 40, d = 80, beside = 40, before = 3;
  const double a = 3 * std::sqrt(0.5), area = 2 * a * (b + d);
  const double weight = kg * gravity, pull = g * weight;
  const double twist = weight * beside / (a * std::pow(b + d, 3) / 6);
  const double pried = pull * beside / (a * b * b * (b + 3 * d) / 6);
  const double tipped = weight * before / (a * d * d * (d + 3 * b) / 6);
  const double off = pull / area + pried * b / 2 + tipped * d / 2;
  const double down = weight / area + twist * b / 2;
  const FootSeams worst = seams_of(test::LugOnWall(0));
  EXPECT_NEAR(worst.doublers.stress.mpa, std::hypot(off, down, twist * d / 2), 1e-6);
  EXPECT_NEAR(worst.doublers.stress.length_mm, 2 * (b + d), 1e-9);
  EXPECT_NEAR(norm(worst.doublers.stress.at - Vec3{0, 0, 85}), 0, 1e-9);
  EXPECT_NE(worst.doublers.words.find("all that the bolt of"), std::string::npos);
}

// EN 1993-1-8, 4.5.3.3: 360 / (sqrt 3 0.8 1.25) = 207.8 MPa of S235; AWS D1.1: 0.30 of 482.6 MPa (70 ksi).
TEST(FootSeams, ADoublerIsHeldAgainstTheCodeOfAllSeams) {
  EXPECT_NEAR(seams_of(test::LugOnWall(0)).doublers.limit.mpa, 360 / std::sqrt(3) / 0.8 / 1.25, 0.01);
  EXPECT_NEAR(seams_of(test::LugOnWall(0), WeldCode::aws_d1_1).doublers.limit.mpa, 0.3 * 482.6, 0.01);
}

TEST(FootSeams, WithoutADoublerTheLugsOwnCarryAlone) {
  const FootSeams worst = seams_of(test::LugOnWall());
  EXPECT_LT(worst.doublers.utilisation, 0);
  EXPECT_GT(worst.mounts.utilisation, 0);
  EXPECT_NEAR(worst.mounts.stress.length_mm, 50, 1e-9);
}

test::LugOnWall of_sheet(double mm) {
  test::LugOnWall wall(0);
  for (Part& part : wall.plan.parts) std::get<Flat>(part.form).thickness_mm = mm;
  return wall;
}

// A leg of 3 mm on sheet of 3 mm: 1 / (sqrt 2 sqrt 3 0.8) = 0.510 of t f_u, between the 0.45 and the 1 of EN 1993-1-3, 8.5;
// on 2 mm half as much again; on 4 mm EN 1993-1-8 holds. AWS D1.1, 2 mm of S235JR: 0.30 x 482.6 x 3 / sqrt 2 / (2 x 360) =
// 0.427, between 0.75 / 3.05 = 0.246 and 1 / 2.35 = 0.4255 no more; from 3 mm (1/8 in) up it holds.
TEST(ThinSeams, AreThoseOfSheetBelowWhereTheRulesBegin) {
  const auto shares = [](double mm, WeldCode code) {
    LoadRules rules;
    rules.welds = code;
    return thin_shares(rules, seams_of(of_sheet(mm), code).doublers);
  };
  const auto thick = shares(4, WeldCode::en_1993_1_8);
  EXPECT_FALSE(thick);
  const auto three = shares(3, WeldCode::en_1993_1_8);
  ASSERT_TRUE(three);
  EXPECT_NEAR(three->throat, 1 / (std::sqrt(6) * 0.8), 1e-9);
  EXPECT_NEAR(shares(2, WeldCode::en_1993_1_8)->throat, 1.5 * three->throat, 1e-9);
  EXPECT_FALSE(shares(3, WeldCode::aws_d1_1));
  const auto aws = shares(2, WeldCode::aws_d1_1);
  ASSERT_TRUE(aws);
  EXPECT_NEAR(aws->throat, 0.3 * 482.6 * 3 * std::sqrt(0.5) / 720, 1e-6);
  EXPECT_GT(aws->throat, aws->most);
}

TEST(ThinSeams, AreToldWithWhatTheyUseByTheLeastOfTheSheetsOwn) {
  const auto worst = seams_of(of_sheet(3)).doublers;
  Finding f;
  say_thin_sheet(f, {}, worst);
  const double percent = 100 * worst.utilisation / (std::sqrt(6) * 0.8) / 0.45;
  EXPECT_NE(f.message.find("EN 1993-1-8 begins at 4 mm, and the thinnest part is 3 mm"), std::string::npos) << f.message;
  EXPECT_NE(f.message.find("count with 0.51, more than the least of these, less than the largest: by the least of them " +
                           std::to_string(std::lround(percent)) + " percent"),
            std::string::npos)
      << f.message;
  Finding thick;
  say_thin_sheet(thick, {}, seams_of(of_sheet(4)).doublers);
  EXPECT_TRUE(thick.message.empty());
}

}  // namespace
}  // namespace fitup::loads

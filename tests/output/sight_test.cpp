// Projection, what a viewer sees, and marks beside a view: laws that hold by geometry.
#include "output/sight.h"

#include <gtest/gtest.h>

#include <cmath>

#include "output/balloons.h"
#include "output/sample.h"
#include "output/totals.h"

namespace fitup::output {
namespace {

Part block(const std::string& mark, Vec3 size) {
  Part part;
  part.mark = mark;
  part.source = Source::sawn;
  part.mass_kg = 2;
  part.form = Solidform{{{{Loop::rectangle({0, 0}, {size.x, size.y}), {}}, Pose(), size.z}}};
  return part;
}

/// Two blocks, the second behind the first along +Y and, where `beside`, moved out from behind it.
Plan two_blocks(bool beside) {
  Plan plan;
  plan.parts = {block("ONE", {100, 100, 100}), block("TWO", {50, 50, 50})};
  plan.instances.resize(2);
  plan.instances[1].part = 1;
  plan.instances[1].pose = Pose::at({beside ? 80.0 : 25.0, 200, 25});
  return plan;
}

TEST(Projection, FromTheFrontKeepsXAndZ) {
  const Projection front(axis::minus_y, axis::z);
  EXPECT_EQ(front.at({3, 4, 5}), (Vec2{3, 5}));
}

TEST(Projection, IsAnIsometryOfThePicturesPlane) {
  const Projection view({-1, -1.6, 1.1}, axis::z);
  EXPECT_NEAR(norm(view.right()), 1, 1e-12);
  EXPECT_NEAR(norm(view.up()), 1, 1e-12);
  EXPECT_NEAR(dot(view.right(), view.up()), 0, 1e-12);
  EXPECT_NEAR(norm(view.at(view.towards())), 0, 1e-12);
}

TEST(Sight, SeesWhatIsInFrontAndNotWhatIsBehind) {
  const Projection front(axis::minus_y, axis::z);
  const Sight sight(two_blocks(false), {0, 1}, front);
  const auto seen = sight.seen_point(0);
  ASSERT_TRUE(seen);
  EXPECT_NEAR(seen->y, 0, 1e-9) << "on the side that faces the viewer";
  EXPECT_FALSE(sight.seen_point(1)) << "wholly behind the first";
  EXPECT_TRUE(Sight(two_blocks(false), {1}, front).seen_point(1)) << "the first is not drawn";
}

TEST(Sight, FindsThePieceThatLooksOutBesideAnother) {
  const Projection front(axis::minus_y, axis::z);
  const auto seen = Sight(two_blocks(true), {0, 1}, front).seen_point(1);
  ASSERT_TRUE(seen);
  EXPECT_GT(seen->x, 100);
  EXPECT_LT(seen->x, 130);
}

TEST(Sight, LooksThroughAWindow) {
  Plan plan = two_blocks(false);
  Flat flat{{Loop::rectangle({-100, -100}, {200, 200}), {Loop::rectangle({30, 30}, {70, 70})}}, 5, {}};
  plan.parts[0].form = flat;
  plan.instances[0].pose = Pose::at({0, 0, 0}, axis::x, axis::z);  // upright, its window in front of the second block
  const auto seen = Sight(plan, {0, 1}, Projection(axis::minus_y, axis::z)).seen_point(1);
  ASSERT_TRUE(seen);
  EXPECT_TRUE(seen->x > 30 && seen->x < 70 && seen->z > 30 && seen->z < 70);
}

TEST(Totals, AreTheBoxRoundEverythingAndTheSumOfTheMasses) {
  Plan plan = two_blocks(true);
  plan.parts[1].source = Source::stand_in;
  const Totals totals = totals_of(plan);
  EXPECT_DOUBLE_EQ(totals.made_kg, 2);
  EXPECT_DOUBLE_EQ(totals.all_kg, 4);
  EXPECT_EQ(totals.overall.size(), (Vec3{130, 250, 100}));
  plan.parts[1].source = Source::printed;
  EXPECT_EQ(totals_of(plan).overall.size(), (Vec3{100, 100, 100})) << "an aid is no part of the enclosure";
}

double turn(Vec2 a, Vec2 b, Vec2 c) { return cross(b - a, c - a); }

bool leaders_cross(const Balloon& a, const Balloon& b) {
  return turn(a.at, a.anchor, b.at) * turn(a.at, a.anchor, b.anchor) < 0 &&
         turn(b.at, b.anchor, a.at) * turn(b.at, b.anchor, a.anchor) < 0;
}

// Anchors from a fixed linear congruential sequence, many of them close together.
TEST(Balloons, NeitherOverlapNorCrossInTheirColumn) {
  const Box2 view{{100, 50}, {500, 350}};
  unsigned seed = 7;
  const auto next = [&seed] { return (seed = seed * 1103515245U + 12345U) / 65536U % 1000U; };
  for (int round = 0; round < 200; ++round) {
    std::vector<Balloon> balloons;
    for (int i = 0; i < 16; ++i) {
      const Vec2 anchor{100 + 0.4 * next(), 50 + 0.3 * next()};
      balloons.push_back({"PLT" + std::to_string(10 + i), anchor, {}});
    }
    place_balloons(balloons, view, 80);
    for (std::size_t i = 0; i < balloons.size(); ++i) {
      EXPECT_TRUE(balloons[i].at.x == 20 || balloons[i].at.x == 580);
      for (std::size_t k = 0; k < i; ++k) {
        if (balloons[i].at.x != balloons[k].at.x) continue;
        EXPECT_GE(std::abs(balloons[i].at.y - balloons[k].at.y), balloon_height);
        EXPECT_FALSE(leaders_cross(balloons[i], balloons[k])) << "round " << round;
      }
    }
  }
}

}  // namespace
}  // namespace fitup::output

// Where the whole stands or hangs, and what that does to its supports, by own statics.
#include "loads/stands_on.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "fitup/weight.h"
#include "loads/solved_box.h"
#include "loads/thrown.h"

namespace fitup::loads {
namespace {

const SolvedCase& standing(const SolvedBox& box) {
  return *std::find_if(box.all.begin(), box.all.end(),
                       [](const SolvedCase& s) { return s.of->kind == LoadKind::standing; });
}

/// Of all parts that are no printed aids, kg and where it balances.
MassAt of_parts(const Plan& plan) {
  MassAt sum;
  for (const Instance& i : plan.instances) {
    const Part& part = plan.parts[i.part];
    if (part.source == Source::printed || part.mass_kg <= 0) continue;
    sum.centre = sum.centre + part.mass_kg * i.pose.point(centre_of(part));
    sum.kg += part.mass_kg;
  }
  sum.centre = (1 / sum.kg) * sum.centre;
  return sum;
}

TEST(StandsOn, ItsFourLowerCornersWhereItHasNoFeet) {
  const auto box = solved_box("park-locomotive/front-box.toml");
  const StandsOn on = stands_on(box->plan(), box->model, load_paths(box->plan(), box->model));
  EXPECT_EQ(on.standing, "standing on its four lower corners");
  ASSERT_EQ(on.supports.size(), 4U);
  for (const Support& s : on.supports) EXPECT_LT(box->model.frame.nodes[s.node].z, 45);
}

// A cabinet on a wall: what it weighs, before the wall, pulls the upper lugs off it and presses the lower ones on it, each
// pair with W e over the height between them.
TEST(StandsOn, LugsThatAWallHoldsBothWays) {
  const auto box = solved_box("cabin-inverter/cabinet.toml");
  const SolvedCase& s = standing(*box);
  EXPECT_EQ(s.of->words, "hanging by its lugs");
  ASSERT_EQ(s.of->frame.supports.size(), 4U);
  const MassAt whole = of_parts(box->plan());
  double low = 1e9, high = -1e9, behind = 0;
  for (const Support& at : s.of->frame.supports) {
    const Vec3 node = box->model.frame.nodes[at.node];
    low = std::min(low, node.z);
    high = std::max(high, node.z);
    behind += node.y / 4;
  }
  double pulled = 0, pressed = 0, up = 0;
  for (std::size_t i = 0; i < 4; ++i) {
    const double z = box->model.frame.nodes[s.of->frame.supports[i].node].z;
    (z > (low + high) / 2 ? pulled : pressed) += s.result.reaction[i].y;
    up += s.result.reaction[i].z;
  }
  const double weight = whole.kg * gravity;
  EXPECT_NEAR(up, weight, 1e-6 * weight);
  const double by_hand = weight * (behind - whole.centre.y) / (high - low);
  EXPECT_GT(by_hand, 0.1 * weight);
  EXPECT_NEAR(pulled, by_hand, 0.05 * by_hand);
  EXPECT_NEAR(pressed, -by_hand, 0.05 * by_hand);
}

TEST(StandsOn, FeetThatAreStated) {
  const auto box = solved_box("park-locomotive/front-box.toml",
                              {{"box.main.feet.thread", "\"M8\""}, {"box.main.feet.thickness", "8"}});
  const SolvedCase& s = standing(*box);
  EXPECT_EQ(s.of->words, "standing on its feet");
  double up = 0;
  for (const Vec3 r : s.result.reaction) up += r.z;
  const double weight = of_parts(box->plan()).kg * gravity;
  EXPECT_NEAR(up, weight, 1e-6 * weight);
  std::size_t holes = 0;
  for (const Pattern& pattern : box->plan().patterns) {
    if (!pattern.key.ends_with(".feet")) continue;
    for (const PatternBody& body : pattern.bodies) {
      for (const PatternHole& hole : body.holes) {
        ++holes;
        double nearest = 1e9;
        for (const Support& at : s.of->frame.supports) {
          nearest = std::min(nearest, norm(box->model.frame.nodes[at.node] - hole.at));
        }
        EXPECT_LT(nearest, 80) << hole.at.x << " " << hole.at.y;
      }
    }
  }
  EXPECT_GE(holes, 4U);
}

}  // namespace
}  // namespace fitup::loads

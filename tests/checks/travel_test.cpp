// Where a moving body is stopped: by hand in closed form, and against the kernel, the body stepped by half a
// millimetre.
#include <cmath>

#include <gtest/gtest.h>

#include "checks/insertion.h"
#include "checks/kernel_judge.h"
#include "checks/planned.h"
#include "checks/shapes.h"
#include "checks/travel.h"
#include "checks/ways.h"
#include "fitup/findings.h"
#include "fitup/model.h"
#include "geometry/facets.h"

namespace fitup {
namespace {

using checks::Decision;
using generated::along_x;
using generated::along_y;
using generated::along_z;

checks::PlacedBody placed(const Body& body) { return checks::place(body, Pose{}); }
checks::PlacedBody placed(const Prism& prism) { return placed(generated::body({prism})); }

double stop(const checks::PlacedBody& mover, const checks::PlacedBody& other, Vec3 way) {
  const auto s = checks::stop_of(mover, other, way);
  EXPECT_EQ(s.sure_mm, s.may_mm);
  return s.sure_mm.value_or(-1e9);
}

TEST(Stop, OfABoxIsWhereItsFrontMeetsTheOther) {
  const auto mover = placed(along_z(generated::box({0, 0}, {10, 10}), 0, 10));
  const auto other = placed(along_x(generated::box({-30, 2}, {-25, 40}), 9, 50));  // y -30..-25, z 2..40, x from 9
  EXPECT_NEAR(stop(mover, other, axis::y), 40, 1e-9);
  EXPECT_LT(stop(mover, other, axis::minus_y), -1e8) << "it lies behind";
  const auto beside = placed(along_x(generated::box({-30, 2}, {-25, 40}), 10, 50));
  EXPECT_LT(stop(mover, beside, axis::y), -1e8) << "it passes along its side";
}

// What it has left behind where it starts is not in its way: a rod through a round that starts between two plates.
TEST(Stop, IsOfWhatLiesAheadOfWhereItStarts) {
  const auto rod = placed(along_z(generated::disc({0, 0}, 3), 0, 10));
  const auto far = placed(along_z(generated::box({-9, -9}, {9, 9}), -60, 10));
  EXPECT_NEAR(checks::stop_of(rod, far, axis::z).sure_mm.value_or(-1), 70, 1e-9);
  EXPECT_FALSE(checks::stop_of(rod, far, axis::z, 40).sure_mm) << "it starts beyond it";
  EXPECT_NEAR(checks::stop_of(rod, far, axis::z, 75).sure_mm.value_or(-1), 70, 1e-9);
  const auto across = placed(along_x(generated::box({-9, -60}, {9, -50}), -9, 18));
  EXPECT_NEAR(checks::stop_of(rod, across, axis::z).sure_mm.value_or(-1), 70, 1e-9);
  EXPECT_FALSE(checks::stop_of(rod, across, axis::z, 40).sure_mm) << "it starts beyond it";
}

// Two rounds side by side touch where their centres are as far apart as their radii together.
TEST(Stop, OfTwoRoundsFollowsFromTheirRadii) {
  const auto mover = placed(along_z(generated::disc({4, 0}, 5), 0, 10));
  const auto other = placed(along_z(generated::disc({0, -20}, 3), 5, 10));
  EXPECT_NEAR(stop(mover, other, axis::y), 20 + std::sqrt(64.0 - 16.0), 1e-9);
}

// A corner meets a round above its middle: 5 mm radius, 3 mm off: 4 mm up.
TEST(Stop, OfACornerOnARoundIsOnItsFlank) {
  const auto mover = placed(along_z(generated::box({3, 0}, {13, 10}), 0, 10));
  const auto other = placed(along_z(generated::disc({0, 30}, 5), 0, 10));
  EXPECT_LT(stop(mover, other, axis::y), 0) << "it would meet it only beyond its place";
  EXPECT_NEAR(stop(mover, other, axis::minus_y), 30 + 4 - 0, 1e-3);
}

TEST(Stop, OfARodIsTheBodyOfTheSheetAndNotItsHole) {
  Profile sheet = generated::box({-20, -20}, {20, 20});
  sheet.holes.push_back(Loop::circle({0, 0}, 3.5));
  const auto plate = placed(along_y(sheet, -13, 3));
  EXPECT_LT(stop(placed(along_y(generated::disc({0, 0}, 3), 0, 50)), plate, axis::y), -1e8);
  EXPECT_LT(stop(placed(along_y(generated::disc({0.5, 0}, 3), 0, 50)), plate, axis::y), -1e8)
      << "it slides along its wall";
  EXPECT_NEAR(stop(placed(along_y(generated::disc({0.7, 0}, 3), 0, 50)), plate, axis::y), 50 + 13, 1e-9);
}

TEST(Stop, OfARodInABoreOfALegIsNone) {
  Body leg = generated::body({along_x(generated::box({-4, -20}, {0, 20}), -50, 100)},
                             {{7, Pose::at({0, -4, 0}, axis::z, axis::x), 4}});
  EXPECT_LT(stop(placed(along_y(generated::disc({0, 0}, 3), -30, 60)), placed(leg), axis::y), -1e8);
  EXPECT_NEAR(stop(placed(along_y(generated::disc({1, 0}, 3), -30, 60)), placed(leg), axis::y), 34, 1e-9);
}

// The bore ends 1 mm before the leg's far side: its ground stops the rod, whose end is at Y 30 in its place.
TEST(Stop, OfARodInABlindBoreIsItsGround) {
  Body leg = generated::body({along_x(generated::box({-4, -20}, {0, 20}), -50, 100)},
                             {{7, Pose::at({0, -4, 0}, axis::z, axis::x), 3}});
  EXPECT_NEAR(stop(placed(along_y(generated::disc({0, 0}, 3), -30, 60)), placed(leg), axis::y), 31, 1e-9);
}

// Started between two, it is stopped by the one ahead and not by the one it has passed.
TEST(Stop, FromBetweenTwoIsByTheOneAhead) {
  const auto mover = placed(along_z(generated::box({0, 0}, {10, 10}), 0, 10));
  const auto passed = placed(along_z(generated::box({0, -40}, {10, -30}), 0, 10));
  EXPECT_NEAR(checks::stop_of(mover, passed, axis::y).sure_mm.value_or(-1), 50, 1e-9);
  EXPECT_FALSE(checks::stop_of(mover, passed, axis::y, 20).sure_mm);
}

/// What moves and what stands, as they are drawn.
struct Scene {
  std::string what;
  Body mover;
  Body other;
  Vec3 way;
};

Prism along(int axis, Profile profile, double from, double length) {
  if (axis == 0) return along_x(std::move(profile), from, length);
  return axis == 1 ? along_y(std::move(profile), from, length) : along_z(std::move(profile), from, length);
}

Profile any_profile(generated::Random& random) {
  const auto number = [&](double low, double high) { return generated::between(random, low, high); };
  const Vec2 at{number(-6, 6), number(-6, 6)};
  switch (generated::pick(random, 6)) {
    case 0: return generated::disc(at, number(2, 6));
    case 1: return generated::hexagon(at, number(5, 12));
    case 2: return generated::racetrack(at, number(9, 14), number(3, 6));
    case 3: {
      Profile ring = generated::disc(at, 8);
      ring.holes.push_back(Loop::circle(at, number(3, 7)));
      return ring;
    }
    case 4: {
      Profile sheet = generated::box({-12, -12}, {12, 12});
      sheet.holes.push_back(Loop::circle({number(-3, 3), number(-3, 3)}, number(4, 8)));
      return sheet;
    }
    default: return generated::box(at, at + Vec2{number(3, 9), number(3, 9)});
  }
}

Scene draw(generated::Random& random) {
  Scene scene;
  const std::size_t mover = generated::pick(random, 3);
  const std::size_t other = generated::pick(random, 3);
  const std::size_t way = generated::pick(random, 6);
  const std::array<Vec3, 6> ways{axis::x, axis::minus_x, axis::y, axis::minus_y, axis::z, axis::minus_z};
  scene.way = ways[way];
  scene.mover =
      generated::body({along(static_cast<int>(mover), any_profile(random), generated::between(random, -5, 5), 6)});
  Prism fixed = along(static_cast<int>(other), any_profile(random), generated::between(random, -5, 5), 5);
  // So far before the mover's place that it is met on the way.
  fixed.pose = fixed.pose.moved(-generated::between(random, 22, 30) * scene.way);
  scene.other = generated::body({fixed});
  scene.what = "mover along axis " + std::to_string(mover) + ", other along " + std::to_string(other) + ", way " +
               std::to_string(way);
  return scene;
}

constexpr double step_mm = 0.5;
constexpr double far_mm = 75;

/// The first of the steps from afar at which the two share volume; 0: none.
double first_shared_mm(const Scene& scene) {
  const Box3 other = placed(scene.other).outer.box;
  const Box3 mover = placed(scene.mover).outer.box;
  for (double before = far_mm; before > 0; before -= step_mm) {
    const Vec3 at = -before * scene.way;
    if (checks::apart({mover.low + at, mover.high + at}, other, 0)) continue;
    const judge::Pair pair(scene.mover, Pose::at(at), scene.other, Pose{});
    if (pair.common_volume_mm3() > 1e-6) return before;
  }
  return 0;
}

TEST(Stop, IsWhatTheKernelFindsWhereTheBodyIsSteppedThroughGeneratedScenes) {
  generated::Random random(20261125);
  int stopped = 0;
  int free = 0;
  for (int i = 0; i < 240; ++i) {
    const Scene scene = draw(random);
    SCOPED_TRACE(testing::Message() << "scene " << i << ": " << scene.what);
    const auto closed = checks::stop_of(placed(scene.mover), placed(scene.other), scene.way);
    const double stepped = first_shared_mm(scene);
    ASSERT_EQ(closed.decision() == Decision::overlap, stepped > 0);
    if (stepped == 0) {
      ++free;
      continue;
    }
    ++stopped;
    EXPECT_LE(stepped, *closed.sure_mm + 1e-3);
    // A sliver of two rounds that share a hundredth of a millimetre has no volume to speak of yet.
    EXPECT_GE(stepped, *closed.sure_mm - step_mm - 0.02);
  }
  std::cout << stopped << " stopped, " << free << " pass\n";
  EXPECT_GT(stopped, 60);
  EXPECT_GT(free, 30);
}

/// How many of the scenes come out differently with these rules: another verdict, or stopped elsewhere.
int spoiled(const checks::Rules& rules) {
  generated::Random random(20261125);
  int differ = 0;
  for (int i = 0; i < 3000; ++i) {
    const Scene scene = draw(random);
    const auto right = checks::stop_of(placed(scene.mover), placed(scene.other), scene.way);
    const auto wrong =
        checks::stop_of(placed(scene.mover), placed(scene.other), scene.way, checks::from_afar_mm, {0, rules});
    const bool same_place = right.sure_mm && wrong.sure_mm && std::abs(*right.sure_mm - *wrong.sure_mm) < 1e-3;
    if (right.decision() != wrong.decision() || (right.decision() == Decision::overlap && !same_place)) ++differ;
  }
  return differ;
}

// More scenes of the kind that the kernel has judged above: they notice each rule that is made wrong.
TEST(Stop, ComesOutDifferentlyWithARuleThatIsWrong) {
  using checks::Rules;
  using geometry::Contact;
  EXPECT_EQ(spoiled(Rules{}), 0);
  const auto with = [](auto&& spoil) {
    Rules rules;
    spoil(rules);
    return spoiled(rules);
  };
  const auto no_quick = [](const geometry::Region&, const geometry::Region&, double) {
    return std::optional<Contact>();
  };
  EXPECT_GT(
      with([](Rules& r) { r.spans = [](geometry::Interval, geometry::Interval, double) { return Contact::clear; }; }),
      0);
  EXPECT_GT(with([](Rules& r) {
              r.discs = [](const auto& a, const auto& b, double) -> std::optional<Contact> {
                return a.disc() && b.disc() ? std::optional(Contact::clear) : std::nullopt;
              };
            }),
            0);
  EXPECT_GT(with([](Rules& r) {
              r.rectangles = [](const auto& a, const auto& b, double) -> std::optional<Contact> {
                return a.rectangle() && b.rectangle() ? std::optional(Contact::clear) : std::nullopt;
              };
            }),
            0);
  EXPECT_GT(with([&](Rules& r) {
              r.discs = no_quick;
              r.rectangles = no_quick;
              r.regions = [](const auto& a, const auto& b, double band) {
                return geometry::relate(geometry::Region({a.profile().outer, {}}),
                                        geometry::Region({b.profile().outer, {}}), band);
              };
            }),
            0)
      << "regions without their holes";
  EXPECT_GT(with([](Rules& r) {
              r.shadow = [](const geometry::Region& region, geometry::Axis2 across, geometry::Interval) {
                return geometry::shadow(region, across, {-1e4, 1e4});
              };
            }),
            0)
      << "shadows of the whole";
}

/// A rod that comes along Y to a leg with a bore across it, off its middle by so much.
struct RodAndBore {
  double rod = 0;  // radii
  double bore = 0;
  Vec2 off;
  [[nodiscard]] bool passes() const { return norm(off) + rod <= bore; }
  [[nodiscard]] bool stopped(const checks::Rules& rules) const {
    const Body leg = generated::body({along_x(generated::box({-4, -20}, {0, 20}), -50, 100)},
                                     {{2 * bore, Pose::at({0, -4, 0}, axis::z, axis::x), 4}});
    // Across Y the plane's axes are Z and X.
    const auto mover = placed(along_y(generated::disc(off, rod), -30, 60));
    return checks::stop_of(mover, placed(leg), axis::y, checks::from_afar_mm, {0, rules}).decision() ==
           Decision::overlap;
  }
};

std::vector<RodAndBore> rods_and_bores() {
  generated::Random random(20261126);
  std::vector<RodAndBore> all;
  while (all.size() < 400) {
    RodAndBore one{generated::between(random, 1, 5), generated::between(random, 1, 6), {}};
    one.off = {generated::between(random, -2, 2), generated::between(random, -2, 2)};
    // Not so near that the band of contact decides.
    if (std::abs(norm(one.off) + one.rod - one.bore) > 0.01) all.push_back(one);
  }
  return all;
}

TEST(Stop, OfARodInABoreIsNoneWhereItFitsAsItStands) {
  int pass = 0;
  for (const RodAndBore& one : rods_and_bores()) {
    EXPECT_EQ(one.stopped({}), !one.passes()) << one.rod << " in " << one.bore << ", off by " << norm(one.off);
    pass += one.passes() ? 1 : 0;
  }
  EXPECT_GT(pass, 50);
  EXPECT_LT(pass, 350);
}

TEST(Stop, OfARodInABoreComesOutDifferentlyWithARuleThatIsWrong) {
  const auto wrong_with = [](checks::Rules::Slack slack) {
    checks::Rules rules;
    rules.slack = slack;
    const auto all = rods_and_bores();
    return std::count_if(all.begin(), all.end(), [&](const RodAndBore& o) { return o.stopped(rules) == o.passes(); });
  };
  EXPECT_GT(wrong_with([](double bore, double rod, double) { return bore - rod; }), 0) << "wherever it stands";
  EXPECT_GT(wrong_with([](double bore, double rod, double off) { return bore - rod / 2 - off; }), 0);
  EXPECT_GT(wrong_with([](double, double, double) { return 1.0; }), 0) << "whatever its size";
  EXPECT_GT(wrong_with([](double, double, double) { return -1.0; }), 0) << "no bore at all";
}

}  // namespace
}  // namespace fitup

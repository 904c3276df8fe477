// Pairs thrown together anyhow, not placed to touch: the kernel alone judges.
#include <array>
#include <cmath>

#include <gtest/gtest.h>

#include "checks/kernel_judge.h"
#include "checks/rules.h"
#include "checks/shapes.h"

namespace fitup {
namespace {

using checks::Decision;
using namespace generated;

Profile any_profile(Random& r, bool whole) {
  const double size = whole ? 2 * std::round(between(r, 2, 9)) : between(r, 4, 18);
  Profile p;
  switch (pick(r, 8)) {
    case 0: return disc({0, 0}, size / 2);
    case 1: return box({0, 0}, {size, whole ? 6 : between(r, 2, 15)});
    case 2: return hexagon({1, 1}, size);
    case 3: return racetrack({0, 0}, size + 5, size / 2);
    case 4: return profile_of(any_angle(r));
    case 5:
      p = box({-size, -size}, {size, size});
      p.holes = {Loop::circle({size / 4, 0}, size / 2), Loop::circle({-size * 0.7, size * 0.7}, size / 5)};
      return p;
    case 6:
      p = disc({0, 0}, size);
      p.holes = {racetrack({0, 0}, size, size / 3).outer};
      return p;
    default: return {Loop::rounded_rectangle({-size, -size / 2}, {size, size / 2}, size / 5), {}};
  }
}

Prism any_prism(Random& r, bool whole) {
  const std::array<Vec3, 6> ways{axis::x, axis::minus_x, axis::y, axis::minus_y, axis::z, axis::minus_z};
  const Vec3 x = ways[pick(r, 6)];
  Vec3 y = x;
  while (dot(x, y) != 0) y = ways[pick(r, 6)];
  const auto at = [&] { return whole ? std::round(between(r, -15, 15)) : between(r, -15, 15); };
  return {any_profile(r, whole), Pose::at({at(), at(), at()}, x, y), whole ? 10 : between(r, 2, 40)};
}

TEST(Anyhow, ThrownPairsAgreeWithTheKernel) {
  constexpr unsigned seed = 41;
  Random random(seed);
  std::array<std::size_t, 3> seen{};
  constexpr int pairs = 700;
  std::cout << "seed " << seed << ", " << pairs << " pairs\n";
  for (int i = 0; i < pairs; ++i) {
    // Whole millimetres every other time, so that faces fall together by chance too.
    const bool whole = i % 2 == 0;
    const Body a = body({any_prism(random, whole)});
    const Body b = body({any_prism(random, whole)});
    const Decision rule = checks::decide(checks::place(a, Pose{}), checks::place(b, Pose{}));
    const auto kernel = judge::measure(a, Pose{}, b, Pose{});
    ASSERT_NE(rule, Decision::unsure);
    ++seen[static_cast<std::size_t>(rule)];
    if (kernel.on_the_edge()) continue;
    EXPECT_EQ(static_cast<int>(rule), static_cast<int>(kernel.verdict()))
        << "pair " << i << ": shared volume " << kernel.volume_mm3 << " mm3, " << kernel.thickness_mm
        << " mm thick, distance " << kernel.distance_mm << " mm";
  }
  std::cout << seen[0] << " clear, " << seen[1] << " touch, " << seen[2] << " overlap\n";
  EXPECT_GT(seen[0], 100U);
  EXPECT_GT(seen[1], 5U);
  EXPECT_GT(seen[2], 100U);
}

}  // namespace
}  // namespace fitup

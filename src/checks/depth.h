#pragma once
// How deep two things overlap, and how far they stand apart along a direction: bisection on the decision.

#include <optional>

#include "checks/scene.h"

namespace fitup::checks {

struct Separation {
  double by_mm = 0;
  Vec3 direction;  // moves `a` out of `b`
};

/// The least translation along X, Y or Z, to and fro, after which the two overlap no more, to 1e-4 mm. None where the
/// question stays undecided.
[[nodiscard]] std::optional<Separation> least_separation(const Scene& scene, Thing a, Thing b);

/// How far `a` must move along `direction` (a unit vector) to meet `b`, to 1e-3 mm; 0 where they meet already. None
/// where they never do within `most_mm`.
[[nodiscard]] std::optional<double> gap_along(const Scene& scene, Thing a, Thing b, Vec3 direction, double most_mm);

}  // namespace fitup::checks

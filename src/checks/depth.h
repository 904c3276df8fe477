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

/// What gaps are rounded to.
inline constexpr double gap_step_mm = 1e-3;

struct GapAlong {
  std::optional<double> mm;  // none: they do not meet
  bool undecided = false;    // on the way there is a place where nobody knows whether they meet: it may be less
};

/// How far `a` must move along `direction` (a unit vector) to meet `b` within `most_mm`, to gap_step_mm; 0 where they meet
/// already.
[[nodiscard]] GapAlong gap_along(const Scene& scene, Thing a, Thing b, Vec3 direction, double most_mm);

}  // namespace fitup::checks

#pragma once
// How far two bodies stand apart, in closed form.

#include <optional>

#include "checks/placed.h"

namespace fitup::checks {

/// 0 where the boxes share a point.
[[nodiscard]] double distance_mm(const Box3& a, const Box3& b);

struct Nearest {
  double mm = 0;  // 0 where they touch or overlap
  Vec3 at;        // between the two
};

/// Prisms along one axis: their spans and regions. A prism over a rectangle is one along every axis. None for two
/// across each other of which neither is that, and for what stands askew.
[[nodiscard]] std::optional<Nearest> nearest(const PlacedPrism& a, const PlacedPrism& b);

/// The least over all pairs of prisms, as far as it is below `below_mm`; at or above that, any number that is. None
/// where a pair that could be nearer has no closed form, or what is inexact or bored decides.
[[nodiscard]] std::optional<Nearest> nearest(const PlacedBody& a, const PlacedBody& b, double below_mm);

}  // namespace fitup::checks

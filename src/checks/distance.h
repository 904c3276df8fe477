#pragma once
// How far two bodies stand apart, in closed form.

#include <optional>

#include "checks/placed.h"
#include "geometry/region_distance.h"

namespace fitup::checks {

/// 0 where the boxes share a point.
[[nodiscard]] double distance_mm(const Box3& a, const Box3& b);

struct Nearest {
  double mm = 0;  // 0 where they touch or overlap
  Vec3 at;        // between the two
};

/// Each rule is replaceable, so that tests can show what happens without it.
struct DistanceRules {
  using Regions = geometry::NearestPlace (*)(const Region&, const Region&);
  using Spans = double (*)(Interval, Interval);
  using Boxes = double (*)(const Box3&, const Box3&);
  using Together = double (*)(double across_mm, double along_mm);
  /// Whether a bore of the stack reaches into the prism that is no hole of its region.
  using Bored = bool (*)(const PlacedPrism&, const Stack&);
  static double between(Interval a, Interval b);
  static double of_both(double across_mm, double along_mm);
  static bool is_bored(const PlacedPrism& prism, const Stack& stack);

  Regions regions = geometry::distance_between;
  Spans spans = between;
  Boxes boxes = distance_mm;
  Together together = of_both;
  Bored bored = is_bored;
};

/// Prisms along one axis: their spans and regions. A prism over a rectangle is one along every axis. None for two
/// across each other of which neither is that, and for what stands askew.
[[nodiscard]] std::optional<Nearest> nearest(const PlacedPrism& a, const PlacedPrism& b,
                                             const DistanceRules& rules = {});

/// The least over all pairs of prisms, as far as it is below `below_mm`; at or above that, any number that is. None
/// where a pair that could be nearer has no closed form, or what is inexact or bored decides.
[[nodiscard]] std::optional<Nearest> nearest(const PlacedBody& a, const PlacedBody& b, double below_mm,
                                             const DistanceRules& rules = {});

}  // namespace fitup::checks

// The least distance over all pairs of edges, those left out whose boxes are farther apart than what was found.
// Entry: distance_between.
#include "geometry/region_distance.h"

#include <algorithm>
#include <cmath>

namespace fitup::geometry {

double distance_mm(const Box2& a, const Box2& b) {
  const double x = std::max({0.0, a.low.x - b.high.x, b.low.x - a.high.x});
  const double y = std::max({0.0, a.low.y - b.high.y, b.low.y - a.high.y});
  return std::hypot(x, y);
}

NearestPlace distance_between(const Region& a, const Region& b) {
  // Where no edges meet, the one lies wholly inside the other, or outside: any of its points tells.
  if (b.contains(a.outline().front().at(0))) return {0, a.outline().front().at(0)};
  if (a.contains(b.outline().front().at(0))) return {0, b.outline().front().at(0)};
  NearestPlace nearest;
  for (const Stretch& s : a.outline()) {
    for (const Stretch& t : b.outline()) {
      if (distance_mm(s.box, t.box) >= nearest.distance_mm) continue;
      const NearestPlace found = nearest_place(s.edge, t.edge);
      if (found.distance_mm < nearest.distance_mm) nearest = found;
    }
  }
  return nearest;
}

}  // namespace fitup::geometry

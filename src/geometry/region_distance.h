#pragma once
// How far two plane regions stand apart.

#include "geometry/intersect.h"
#include "geometry/region.h"

namespace fitup::geometry {

/// 0 where they share a point, else the least distance between their outlines; with a place on one of them.
[[nodiscard]] NearestPlace distance_between(const Region& a, const Region& b);

/// 0 where the boxes share a point.
[[nodiscard]] double distance_mm(const Box2& a, const Box2& b);

}  // namespace fitup::geometry

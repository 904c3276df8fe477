#pragma once
// Where a stretch crosses an infinite line or a full circle, as parameters along the stretch.

#include <vector>

#include "geometry/region.h"

namespace fitup::geometry {

/// Parameters in 0..1 are appended to `out`, in no order. Running along the line or circle gives none.
void cross_line(const Stretch& s, Vec2 through, Vec2 direction, std::vector<double>& out);
void cross_circle(const Stretch& s, Vec2 centre, double radius_mm, std::vector<double>& out);

}  // namespace fitup::geometry

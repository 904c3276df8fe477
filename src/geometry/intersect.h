#pragma once
// Where two edges (lines or arcs) meet.

#include <vector>

#include "fitup/geometry.h"

namespace fitup::geometry {

/// Points that both edges share, ends included, within tolerance::coincident_mm. Where they run along each
/// other, the ends of the shared piece.
[[nodiscard]] std::vector<Vec2> common_points(const Edge& a, const Edge& b);

/// Even-odd: is the point inside the loop? Points within coincident_mm of the outline count as neither:
/// `on` is returned.
enum class Side { inside, outside, on };
[[nodiscard]] Side side_of(const Loop& loop, Vec2 p);

/// Distance from a point to an edge.
[[nodiscard]] double distance_mm(const Edge& edge, Vec2 p);

}  // namespace fitup::geometry

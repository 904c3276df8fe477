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

/// Distance from a point to an edge; `arc` is the edge's own, without meaning where it is straight.
[[nodiscard]] double distance_mm(const Edge& edge, const Arc& arc, Vec2 p);
[[nodiscard]] double distance_mm(const Edge& edge, Vec2 p);

/// Distance between two edges, 0 where they meet, and a place on one of them where they are so near.
struct NearestPlace {
  double distance_mm = 1e300;
  Vec2 at;
};
[[nodiscard]] NearestPlace nearest_place(const Edge& a, const Edge& b);

/// Whether two boxes stand apart by more than the band, in x or in y.
[[nodiscard]] bool apart(const Box2& a, const Box2& b, double band_mm);

}  // namespace fitup::geometry

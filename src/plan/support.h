#pragma once
// What stands on what: level places, and how much of a bottom they carry. Private to the plan.

#include <optional>
#include <vector>

#include "fitup/geometry.h"

namespace fitup::plan {

[[nodiscard]] Box2 footprint(const Box3& box);

/// The rectangle that two have in common, if it is more than a contact's breadth both ways.
[[nodiscard]] std::optional<Box2> common(const Box2& a, const Box2& b);

/// The axis direction from a to b if they touch face to face.
[[nodiscard]] std::optional<Vec3> direction_to(const Box3& a, const Box3& b);

/// True if the boxes touch along an edge or at a corner only.
[[nodiscard]] bool meet_along_edge(const Box3& a, const Box3& b);

/// Which parts of a bottom at height `z_mm` lie on one of the seats.
[[nodiscard]] std::vector<Box2> carried(const Box2& bottom, double z_mm, const std::vector<Box3>& seats);

/// Whether a place lies within the hull of what carries, not only on its edge.
[[nodiscard]] bool within_hull(Vec2 place, const std::vector<Box2>& carrying);

/// Whether what has this box stands: its middle lies within the hull of what carries it.
[[nodiscard]] bool stands(const Box3& box, const std::vector<Box3>& seats);

}  // namespace fitup::plan

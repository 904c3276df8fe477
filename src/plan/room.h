#pragma once
// Which room is taken, and what a spanner needs to reach a bolt. Private to the plan.

#include <optional>
#include <vector>

#include "plan/draft.h"

namespace fitup::plan {

/// One piece of what stands in a draft, as the axis-parallel box around it.
struct Taken {
  InstanceId id = 0;
  Box3 box;
  bool root = false;  // it is around an angle's root
};

/// Everything but the items and what sticks in them: those are put in when the steel is bolted together.
[[nodiscard]] std::vector<Taken> taken_by_steel(const Draft& draft);

/// The items alone.
[[nodiscard]] std::vector<Taken> taken_by_items(const Draft& draft);

/// The first that shares room with the box, those left out that are named.
[[nodiscard]] std::optional<InstanceId> first_in(const std::vector<Taken>& taken, const Box3& box,
                                                 const std::vector<InstanceId>& but = {});

/// Outside diameter of a socket for this nut.
[[nodiscard]] double socket_mm(const HexNut& nut);
/// Free length over a nut or a bolt's head that a socket on its ratchet needs.
inline constexpr double socket_room_mm = 40;
/// Free length over a socket head: the short arm of a hexagon key of 5 mm is 28 mm (ISO 2936, from memory).
inline constexpr double key_room_mm = 30;

/// A square room round an axis, from a point along a direction.
[[nodiscard]] Box3 room_over(Vec3 from, Vec3 direction, double across_mm, double length_mm);

/// The pose of an angle that runs from a to b along its heel, its legs in these directions.
[[nodiscard]] Pose angle_pose(Vec3 a, Vec3 b, Vec3 leg_1, Vec3 leg_2);

}  // namespace fitup::plan

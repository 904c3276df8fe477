#pragma once
// How far a gland must be moved in its sheet until its spanners find room. Private to the checks.

#include <functional>
#include <optional>

#include "checks/tool_room.h"

namespace fitup::checks {

/// Along either axis: farther it is another place, not this one mended.
inline constexpr double farthest_move_mm = 40;

/// A short way along the two axes of its sheet, neither part of which can be shorter by itself, to 1e-4 mm; none within
/// farthest_move_mm. `finds_room`: whether all of its tools do when it is moved so far.
[[nodiscard]] std::optional<Vec3> short_move(Vec3 gland_axis, const std::function<bool(Vec3)>& finds_room);

/// The tool's room elsewhere.
[[nodiscard]] ToolRoom moved_room(ToolRoom room, Vec3 by);

}  // namespace fitup::checks

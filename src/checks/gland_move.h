#pragma once
// How far a gland must be moved in its sheet until its spanners find room. Private to the checks.

#include <functional>
#include <optional>

#include "checks/scene.h"
#include "checks/tool_room.h"
#include "geometry/region.h"

namespace fitup::checks {

/// Along either axis: farther it is another place, not this one mended.
inline constexpr double farthest_move_mm = 40;

/// A short way along the two axes of its sheet, neither part of which can be shorter by itself, to 1e-4 mm; none within
/// farthest_move_mm. `finds_room`: whether all of its tools do when it is moved so far.
[[nodiscard]] std::optional<Vec3> short_move(Vec3 gland_axis, const std::function<bool(Vec3)>& finds_room);

/// Where a gland's spanners alone find room, and where its hole and its cable do too.
struct GlandMoves {
  std::optional<Vec3> spanners;
  std::optional<Vec3> all;
};

/// What a gland needs beside its spanners, where it is moved to: in its sheet a whole hole with webs that no shop asks
/// about, room for itself, and behind it the room that its cable is kept.
class GlandSeat {
 public:
  GlandSeat(const Scene& scene, InstanceId gland);
  [[nodiscard]] bool is_good(Vec3 by) const;

 private:
  void find_sheet(InstanceId host);
  [[nodiscard]] bool takes_hole(Vec3 by) const;
  [[nodiscard]] bool is_free(const PlacedBody& body, Vec3 by) const;

  const Scene& scene_;
  InstanceId gland_;
  std::vector<InstanceId> joined_;         // and itself
  std::optional<geometry::Region> sheet_;  // without the gland's own hole; none of what is no flat sheet
  Pose pose_;                              // of the sheet
  double hole_mm_ = 0;
  double web_mm_ = 0;
  std::vector<Thing> rooms_;  // kept for its cable
};

/// The tool's room elsewhere.
[[nodiscard]] ToolRoom moved_room(ToolRoom room, Vec3 by);

}  // namespace fitup::checks

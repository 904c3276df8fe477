#pragma once
// Room before the face through which something comes to its place, where the bay states how much there is.

#include <optional>
#include <string_view>

#include "fitup/plan.h"

namespace fitup::checks {

struct LackingRoom {
  std::string_view face;  // "front": before which it is lacking
  double needed_mm = 0;   // as much as what comes is long along its way
  double room_mm = 0;     // that the bay leaves there
  Vec3 at;                // the middle of what comes, where it stands just before the frame
};

/// Of what fills `own` in its place and comes there along `way`; none where there is room, or no bay is stated.
[[nodiscard]] std::optional<LackingRoom> lacking_room(const PlacedFrame& frame, const Box3& own, Vec3 way);

}  // namespace fitup::checks

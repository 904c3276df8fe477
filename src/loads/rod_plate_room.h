#pragma once
// What stands before the items of a rod plate, once the plate gives.

#include <optional>

#include "fitup/plan.h"

namespace fitup::loads {

struct RodPlateRoom {
  double mm = 0;
  InstanceId moves = 0;   // an item or its rod; an item whose kept-clear space is nearest too
  InstanceId before = 0;  // what it would come to
};
struct RoomBefore {
  std::optional<RodPlateRoom> least;    // of what has some way to go; nothing where nothing stands there
  std::optional<RodPlateRoom> leaning;  // what touches from the outset, the first of it
};
/// Along `way`, an axis, from what hangs on the plate, its rods and the spaces that are kept clear on its items
/// (connectors) to covers with their flanges, plates of faces, walls and items that do not hang on it, as boxes.
[[nodiscard]] RoomBefore room_before(const Plan& plan, InstanceId plate, Vec3 way);

}  // namespace fitup::loads

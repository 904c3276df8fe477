#pragma once
// An item's own holes that hold it: where they are, and the item's shape with them. Private to the plan.

#include <vector>

#include "plan/build.h"

namespace fitup::plan {

/// The axes of one of an item's own faces: of its two directions in X, Y, Z order, and square to it.
struct OwnFace {
  int u = 0;
  int v = 2;
  int n = 1;
  Side side = high;
};
[[nodiscard]] OwnFace own_face(Face face);

/// Middle of a hole in the face, in the item's own coordinates.
[[nodiscard]] Vec3 hole_in_item(const ItemSpec& item, const Lengths<2>& at);

/// The item as prisms of the part's own frame (x across, y up, z from the back to the front): its body with what rods
/// and tapped holes take, and its ears.
[[nodiscard]] std::vector<Prism> item_prisms(const ItemSpec& item);

/// Around body and ears, in the item's own coordinates.
[[nodiscard]] Box3 reach_of(const ItemSpec& item);

/// Says which holes do not suit the items that stand in the box. True if there are none.
bool check_all_holes(Build& build);

}  // namespace fitup::plan

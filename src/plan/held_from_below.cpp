// Where screws hold items from below, across the rails that they go through.
// Entry: held_from_below.
#include "plan/held_from_below.h"

#include "plan/item_holes.h"
#include "plan/rails.h"

namespace fitup::plan {

std::vector<HeldFromBelow> held_from_below(const Build& build) {
  std::vector<HeldFromBelow> out;
  for (std::size_t i = 0; i < build.box.items.size(); ++i) {
    const PlacedItem& placed = build.box.items[i];
    const auto& mounts = placed.item->mounts;
    if (!mounts || *mounts->face != Face::bottom || !on_floor(build, i)) continue;
    for (const auto& own : mounts->at) {
      const Vec3 at = place_on(placed, hole_in_item(*placed.item, own)) + build.shift_of(i);
      out.push_back({rails_across(build) ? at.y : at.x, tables::find_thread(*mounts->thread)});
    }
  }
  return out;
}

}  // namespace fitup::plan

// Boxes of tools against the faces of the frame, moved out by what the bay leaves.
// Entry: BayRoom::lacking.
#include "checks/bay_room.h"

#include <algorithm>

#include "checks/coming_out.h"
#include "fitup/tolerances.h"

namespace fitup::checks {

BayRoom::BayRoom(const Plan& plan, InstanceId id) : frame_(frame_of(plan, plan.instances[id].key)) {}

bool BayRoom::stated() const {
  return frame_ != nullptr && std::any_of(frame_->bay_mm.begin(), frame_->bay_mm.end(),
                                          [](const std::optional<double>& mm) { return mm.has_value(); });
}

std::optional<Lacking> BayRoom::lacking(const Prism& column, const Prism* swing) const {
  Box3 box = column.bounds();
  if (swing != nullptr) box.add(swing->bounds());
  const Box3& space = frame_->space;
  // In the order of PlacedFrame::bay_mm.
  const std::array<double, 6> beyond{space.low.y - box.low.y,   box.high.y - space.high.y, space.low.x - box.low.x,
                                     box.high.x - space.high.x, box.high.z - space.high.z, space.low.z - box.low.z};
  std::optional<Lacking> most;
  for (std::size_t face = 0; face < beyond.size(); ++face) {
    if (!frame_->bay_mm[face]) continue;
    const double bay = *frame_->bay_mm[face];
    if (beyond[face] <= bay + tolerance::contact_mm) continue;
    if (!most || beyond[face] - bay > most->needed_mm - most->bay_mm) most = Lacking{face, bay, beyond[face]};
  }
  return most;
}

}  // namespace fitup::checks

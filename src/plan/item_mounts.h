#pragma once
// Screws through an item's own holes, and what they go into. Private to the plan.

#include <vector>

#include "plan/build.h"

namespace fitup::plan {

/// In the rails under the item, in strips that fill the gap to the plate that closes the face, or in strips from
/// upright to upright. After the plates and covers.
void add_item_mounts(Build& build, const PlacedHardware& hardware, const std::vector<Host>& rails);

}  // namespace fitup::plan

#pragma once
// Which welds are intermittent.

#include <vector>

#include "plan/boxes.h"
#include "plan/plate/splice.h"

namespace fitup::plan {

/// The welds of each plate that closes a face and is to be welded at intervals, on members, walls, landings and other
/// such plates, get a rule of their own. Pieces of one plate, and what stands on a plate, are welded all along.
void stitch_plates(Plan& plan, const std::vector<StandingBox>& boxes, const std::vector<plate::Splice>& splices);

}  // namespace fitup::plan

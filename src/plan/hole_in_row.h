#pragma once
// Holes of rows by rule against the other holes of what they go through. Private to the plan.

#include "plan/holes.h"

namespace fitup::plan {

/// Where a hole of a row of screws comes nearer to another one of that plate or leg than the shop cuts, or than is left
/// between holes in any case, the row's gap there is added to `row_gaps`, for another trial. Nothing for a screw that is
/// of no row, or holes in what is neither.
void keep_from_other_holes(Build& build, const ScrewPlace& place, InstanceId id, const RoundHole& hole);

}  // namespace fitup::plan

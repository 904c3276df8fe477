#pragma once
// Notches in the flanges of covers, where something of others stands in their way. Private to the plan.

#include "plan/build.h"
#include "plan/room.h"

namespace fitup::plan {

/// Cuts them, once all of the box stands: as wide as what stands there and the face's notch_gap all round. Says where
/// one would leave a flange too little for its weld, its bend, its root or a screw whose place is given; where it comes
/// too near to a screw of a row by rule, that row's gap is added to `row_gaps`, for another trial.
void notch_flanges(Build& build);

/// Whether what stands there gives way to what gets a place that the spec states: a flange, which is then notched, or
/// what is in one by rule.
[[nodiscard]] bool gives_way(const Build& build, const Taken& taken);

}  // namespace fitup::plan

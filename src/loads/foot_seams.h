#pragma once
// Seams of feet and lugs, and of the doublers under them: what a bolt pulls goes through those of the foot that it stands
// in, and on through those of its doubler.

#include "fitup/weight.h"
#include "loads/worst_seam.h"

namespace fitup::loads {

struct FootSeams {
  WorstSeam mounts;    // of feet and lugs,
  WorstSeam doublers;  // and of what they stand on between them and the sheet: with all that the bolt does
};

/// At rest and thrown. The seams of each take the bolt's force at the bolt, as elastic lines between rigid parts, but for
/// what presses.
[[nodiscard]] FootSeams worst_foot_seams(const Plan& plan, const Seams& seams, const Weights& weights);

}  // namespace fitup::loads

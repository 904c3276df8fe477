#pragma once
// Seams of feet and lugs: what a bolt pulls goes through those of the foot that it stands in.

#include "fitup/weight.h"
#include "loads/worst_seam.h"

namespace fitup::loads {

/// Of feet and lugs, at rest and thrown.
[[nodiscard]] WorstSeam worst_foot_seam(const Plan& plan, const Seams& seams, const Weights& weights);

}  // namespace fitup::loads

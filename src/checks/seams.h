#pragma once
// The seams of a plan whose instances are placed already.

#include <vector>

#include "checks/placed.h"
#include "fitup/seams.h"

namespace fitup::checks {

/// `bodies`: of the plan's instances, then of its zones.
[[nodiscard]] Seams seams_of(const Plan& plan, const std::vector<PlacedBody>& bodies);

/// The rule of a weld joint.
[[nodiscard]] const WeldRule& weld_rule(const Plan& plan, const Joint& joint);

}  // namespace fitup::checks

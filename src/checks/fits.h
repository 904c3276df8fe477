#pragma once
// The fits that the plan worked out, judged: the measured frame, gaps between coated parts.

#include <vector>

#include "fitup/findings.h"

namespace fitup::checks {

/// One finding for each of Plan::fits.
[[nodiscard]] std::vector<Finding> check_fits(const Plan& plan);

}  // namespace fitup::checks

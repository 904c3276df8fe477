#pragma once
// Check "lift": the whole's mass against what the eyes are rated for, two of them carrying. Nothing else of lifting.

#include <vector>

#include "fitup/findings.h"

namespace fitup::loads {

[[nodiscard]] std::vector<Finding> check_lift(const Plan& plan);

}  // namespace fitup::loads

#pragma once
// Check "weight": what the whole and each box weigh, and where they balance.

#include <vector>

#include "fitup/findings.h"
#include "fitup/weight.h"

namespace fitup::loads {

[[nodiscard]] std::vector<Finding> check_weight(const Plan& plan, const Weights& weights);

}  // namespace fitup::loads

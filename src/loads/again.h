#pragma once
// Loads and rules for those who ask them of many plans that differ little.

#include <string_view>
#include <vector>

#include "checks/only.h"
#include "fitup/findings.h"

namespace fitup::loads {

/// `chances`: what is known of patterns from plans before, and is added to.
[[nodiscard]] Findings judge_by_rules(const Plan& plan, int cores, checks::KnownChances& chances);

/// With the load findings that are known of this plan.
[[nodiscard]] Findings judge_by_rules(const Plan& plan, std::vector<Finding> loads);

/// What check_loads says under one check's name.
[[nodiscard]] std::vector<Finding> check_only(const Plan& plan, std::string_view check);
/// Likewise, where it counts what fails or passes and by what value: of a frame that fails no more than shows it.
[[nodiscard]] std::vector<Finding> verdicts_only(const Plan& plan, std::string_view check);
/// What costs least first, and no more once something fails: where nothing does, all that check_loads says, in another
/// order.
[[nodiscard]] std::vector<Finding> check_until_failure(const Plan& plan);

}  // namespace fitup::loads

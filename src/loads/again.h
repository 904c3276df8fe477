#pragma once
// judge_by_rules for those who ask it of many plans that differ little.

#include "checks/only.h"
#include "fitup/findings.h"

namespace fitup::loads {

/// `chances`: what is known of patterns from plans before, and is added to.
[[nodiscard]] Findings judge_by_rules(const Plan& plan, int cores, checks::KnownChances& chances);

}  // namespace fitup::loads

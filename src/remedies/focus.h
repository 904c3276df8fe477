#pragma once
// What of a plan a finding is about.

#include <set>
#include <string>
#include <vector>

#include "fitup/findings.h"
#include "fitup/plan.h"

namespace fitup::remedies {

/// The instances that a finding of this plan names as its parts.
[[nodiscard]] std::vector<InstanceId> instances_of(const Finding& finding, const Plan& plan);

/// The plan of these instances alone, with the joints, fasteners and kept spaces among them: enough to ask how they
/// meet, not how they are held.
[[nodiscard]] Plan plan_of(const Plan& plan, const std::set<std::string>& names);

}  // namespace fitup::remedies

#pragma once
// Items that neither rods in a plate nor screws hold, when the box is thrown.

#include <set>
#include <vector>

#include "fitup/findings.h"
#include "fitup/plan.h"

namespace fitup::loads {

/// What is said of all items of the plan but `held`, for the accelerations that are stated in `rules`: fail for those
/// before which nothing stands to a side that they are thrown to, marginal for those that something stands in the way
/// of, whose push nobody checks. Nothing where weight alone keeps them: thrown down, or up with less than 1 g.
[[nodiscard]] std::vector<Finding> check_unheld_items(const Plan& plan, const LoadRules& rules,
                                                      const std::set<InstanceId>& held);

}  // namespace fitup::loads

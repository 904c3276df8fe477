#pragma once
// Many findings of one cause become one: the worst, with how many there are and the parts of all.

#include <vector>

#include "fitup/findings.h"

namespace fitup::checks {

/// Findings of one check, verdict and cause (where it is not empty) are put into the worst of them, in its place.
[[nodiscard]] std::vector<Finding> one_for_each_cause(const std::vector<Finding>& worst_first);

}  // namespace fitup::checks

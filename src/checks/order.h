#pragma once
// Order and wording that all checks share.

#include <cstddef>
#include <string>
#include <vector>

#include "fitup/findings.h"

namespace fitup::checks {

/// Worst first: fail, marginal, not checked, pass; the larger value first; then as they came.
void sort_worst_first(std::vector<Finding>& findings);

/// "44,850"
[[nodiscard]] std::string grouped(std::size_t n);
/// "0.20", with as many decimals as it takes to show two figures of a small length, at most four.
[[nodiscard]] std::string length_text(double mm);

}  // namespace fitup::checks

#pragma once
// Check "seam-size": fillets beside the least size for the thickness of their parts.

#include <vector>

#include "fitup/findings.h"
#include "fitup/seams.h"

namespace fitup::loads {

/// The smallest beside what the code demands, and beside what it advises.
[[nodiscard]] std::vector<Finding> check_seam_sizes(const Plan& plan, const Seams& seams);

}  // namespace fitup::loads

#pragma once
// Whether a box on feet stands on them.

#include <vector>

#include "fitup/findings.h"

namespace fitup::checks {

/// For each box with feet: what of it hangs below their underside is a failure, for the box would stand on that; what
/// is put in for a cable or a hose is marginal, since what the feet are bolted to may leave it room.
[[nodiscard]] std::vector<Finding> check_standing(const Plan& plan);

}  // namespace fitup::checks

#pragma once
// Does the whole, with all that stands out of it, go into the space that is stated, past what is in the way there?

#include <vector>

#include "checks/scene.h"
#include "fitup/findings.h"

namespace fitup::checks {

/// None where no space is stated.
[[nodiscard]] std::vector<Finding> check_space(const Scene& scene);

}  // namespace fitup::checks

#pragma once
// Check "held": through welds, screws, bearings and threads every instance hangs together with the frame. A slip joint
// holds nothing. One finding for each group that does not, naming its members.

#include <vector>

#include "checks/scene.h"
#include "fitup/findings.h"

namespace fitup::checks {

[[nodiscard]] std::vector<Finding> check_held(const Scene& scene);

}  // namespace fitup::checks

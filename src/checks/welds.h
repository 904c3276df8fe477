#pragma once
// Check "welds": does each weld joint keep enough seam where a bead can lie and is not ground away?

#include <vector>

#include "checks/scene.h"
#include "fitup/findings.h"

namespace fitup::checks {

[[nodiscard]] std::vector<Finding> check_welds(const Scene& scene);

}  // namespace fitup::checks

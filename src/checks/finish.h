#pragma once
// What the coat asks of the steel: hollows and overlaps that are vented before hot dipping, threads that stay
// bare.

#include <vector>

#include "checks/scene.h"
#include "fitup/findings.h"

namespace fitup::checks {

/// Nothing where there is no coat.
[[nodiscard]] std::vector<Finding> check_finish(const Scene& scene);

}  // namespace fitup::checks

#pragma once
// Do the groups of parts that the spec keeps apart keep their distance?

#include <vector>

#include "checks/scene.h"
#include "fitup/findings.h"

namespace fitup::checks {

/// For each rule the pair that is nearest, its distance and place; parts that are joined to each other are no pair.
/// Counts pairs that the kernel decided in `stats`.
[[nodiscard]] std::vector<Finding> check_clearance(const Scene& scene, CheckStats& stats);

}  // namespace fitup::checks

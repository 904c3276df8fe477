#pragma once
// Do the groups of parts that the spec keeps apart keep their distance?

#include <vector>

#include "checks/scene.h"
#include "checks/seams.h"
#include "fitup/findings.h"

namespace fitup::checks {

/// Beads that may be left away and stand nearer to something than a rule wants.
[[nodiscard]] std::vector<KeepFree> beads_too_near(const Scene& scene);

/// For each rule the pair that is nearest, its distance and place; parts that are joined to each other are no pair.
/// Counts pairs that the kernel decided in `stats`.
[[nodiscard]] std::vector<Finding> check_clearance(const Scene& scene, CheckStats& stats);

}  // namespace fitup::checks

#pragma once
// Does each item, rod plate, cover and box come to its place along its way, with everything that is there by then, and
// does each item come out again alone once the box is complete and its covers are off?

#include <vector>

#include "checks/scene.h"
#include "checks/seams.h"
#include "fitup/findings.h"

namespace fitup::checks {

/// Beads that may be left away and that alone are in something's way.
[[nodiscard]] std::vector<KeepFree> beads_on_ways(const Scene& scene);

/// None for a plan without steps. `stop` ends it early, with what was found by then.
[[nodiscard]] std::vector<Finding> check_insertion(const Scene& scene, const std::function<bool()>& stop = {});

}  // namespace fitup::checks

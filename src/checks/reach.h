#pragma once
// Is there room for a key, socket or spanner on each screw, nut, eye and gland, at the moment when it is tightened?

#include <functional>
#include <vector>

#include "checks/scene.h"
#include "checks/seams.h"
#include "fitup/findings.h"

namespace fitup::checks {

/// Beads that may be left away and that alone are in the room of the tool that would do.
[[nodiscard]] std::vector<KeepFree> beads_in_tool_rooms(const Scene& scene, int cores);

/// None for a plan without steps. What is made up beforehand is tightened on the bench, beside nothing but its own
/// step's parts. `stop` ends it early.
[[nodiscard]] std::vector<Finding> check_reach(const Scene& scene, int cores, const std::function<bool()>& stop = {});

}  // namespace fitup::checks

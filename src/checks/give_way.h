#pragma once
// Which beads are to be left away for what comes past them: where the rule leaves the side free, the sides that stand
// in nobody's way are taken.

#include <utility>
#include <vector>

#include "checks/scene.h"
#include "checks/seams.h"

namespace fitup::checks {

/// Of what is laid now. Nothing where something else is in the way too: leaving the beads away would not help.
[[nodiscard]] std::vector<KeepFree> in_the_way(const Scene& scene, int cores);

/// Beads near each other that are not of one welded whole: they do not melt into each other.
[[nodiscard]] std::vector<std::pair<Thing, Thing>> beads_of_two_wholes(const Scene& scene);

}  // namespace fitup::checks

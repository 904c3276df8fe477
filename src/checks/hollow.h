#pragma once
// What no torch reaches: seams in the hollow of a tube. Private to the checks.

#include "fitup/plan.h"
#include "fitup/seams.h"

namespace fitup::checks {

/// Whether the bead would lie in the hollow of that part, if it is a tube: along the inner edge of its sawn end, behind a
/// cap, round a boss beneath the wall. What is turned to the tube's own mouth, as before a cap that is set in, lies open.
[[nodiscard]] bool in_hollow(const Part& part, const Pose& pose, const Seam& seam);

}  // namespace fitup::checks

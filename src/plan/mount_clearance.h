#pragma once
// Which clearances bring an item's mounting holes clear of what a leg under them has no room for. Private to the plan.

#include <string>

#include "plan/build.h"
#include "plan/holes.h"
#include "plan/patterns.h"

namespace fitup::plan {

/// Of a hole through a ring's lying leg that has no room for it, beside its root or its toe: "make
/// box.main.clearance.left at most 8 mm or at least 24 mm, "; the one brings the hole into the leg, the other the
/// screw's head past it. Empty where no item is held there.
[[nodiscard]] std::string clearance_for_mount(Build& build, const ScrewPlace& place, InstanceId id,
                                              const RoundHole& hole);

}  // namespace fitup::plan

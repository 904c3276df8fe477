#pragma once
// Holes near both ends of every tube, through which it drains and lets air out. Private to the plan.

#include "plan/build.h"

namespace fitup::plan {

/// Where the spec asks for them; last of all, where nothing that is welded lies over them. Says where there is no room.
void add_vents(Build& build);

/// By rule, of a tube of these sides.
[[nodiscard]] double vent_diameter_mm(const Section& tube);

}  // namespace fitup::plan

#pragma once
// Feet under the bottom ring, lugs at a face that hangs on a wall. Private to the plan.

#include "plan/build.h"

namespace fitup::plan {

/// Adds those that the spec asks for. After plates and covers, which they must be free of.
void add_mounts(Build& build);

}  // namespace fitup::plan

#pragma once
// Plates under the top's border that carry lift bosses together with it. Private to the plan.

#include "plan/build.h"

namespace fitup::plan {

/// In a box of plates, of each lift boss; in a framed one nothing.
void add_doublers(Build& build);

}  // namespace fitup::plan

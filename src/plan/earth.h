#pragma once
// Threaded studs for earth leads. Private to the plan.

#include "plan/build.h"

namespace fitup::plan {

/// Welded to the plate that closes a face, or to a member or an upright of an open one, bought with its washer and nut,
/// which stand nowhere. After everything else.
void add_earth_studs(Build& build);

}  // namespace fitup::plan

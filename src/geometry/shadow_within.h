#pragma once
// The shadow of a region as far as a window of it matters.

#include <vector>

#include "geometry/region.h"

namespace fitup::geometry {

/// As `shadow`, within `within` on the axis that it is cast onto; beyond that its pieces may be longer, shorter or
/// absent. Of a long plate with many holes it takes only those before the window.
[[nodiscard]] std::vector<Interval> shadow_within(const Region& region, Axis2 across, Interval strip, Interval within);

}  // namespace fitup::geometry

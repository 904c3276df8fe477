#pragma once
// Screws of bottom covers whose tips come up through the legs that the rails lie on. Private to the plan.

#include <vector>

#include "plan/build.h"

namespace fitup::plan {

/// Each rail that lies on one of `hosts` gets clearance holes for the tips that come through there. A row by rule
/// wishes for gaps, so that each of its screws passes a rail with the web that its hole needs or stands beside it;
/// where that does not mend it, what is said names the width of rail that does.
void let_through_rails(Build& build, const std::vector<InstanceId>& hosts, const std::vector<Host>& rails);

}  // namespace fitup::plan

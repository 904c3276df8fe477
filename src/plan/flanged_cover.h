#pragma once
// Covers with flanges that lap round the frame, at any face. Private to the plan.

#include <vector>

#include "plan/build.h"
#include "plan/flange_edges.h"

namespace fitup::plan {

/// Sheet, flanges, screws, and the strips that those of the left and the right need beside the uprights.
void add_flanged_cover(Build& build, Face face, const std::vector<Host>& rails);

}  // namespace fitup::plan

#pragma once
// Where parts stand when an assembly is pulled apart along the ways on which they came.

#include <vector>

#include "fitup/plan.h"

namespace fitup::bench {

/// By how much each instance is moved. A step's parts move as one, against the way they came, until they clear by
/// `gap_mm` all before them that would lie over them along that way; what is welded on a face moves out of it. Members
/// of frames keep together.
[[nodiscard]] std::vector<Vec3> exploded(const Plan& plan, double gap_mm);

/// Parts that an exploded view shows: no screws, nuts and the like, which the parts list counts.
[[nodiscard]] bool shown_exploded(Role role);

}  // namespace fitup::bench

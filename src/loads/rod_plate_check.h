#pragma once
// Check "hold-down" of rod plates: thrown along their rods, items pull at one of the two; it bends between the seams
// that hold it, as cut.

#include <vector>

#include "fitup/findings.h"
#include "fitup/seams.h"

namespace fitup::loads {

/// None where the spec states no acceleration along the rods, or a plate is held by screws alone.
[[nodiscard]] std::vector<Finding> check_rod_plates(const Plan& plan, const Seams& seams);

}  // namespace fitup::loads

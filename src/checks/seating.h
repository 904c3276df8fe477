#pragma once
// seating: how much of each foot strip still stands on its rail when both are off their places.

#include <vector>

#include "fitup/findings.h"

namespace fitup::checks {

[[nodiscard]] std::vector<Finding> check_seating(const Plan& plan);

/// What of the strip lies on the rail when the one is off the other by this much, to the worse side.
[[nodiscard]] double width_left_mm(const StripSeat& seat, double off_mm);

}  // namespace fitup::checks

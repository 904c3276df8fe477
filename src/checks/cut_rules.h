#pragma once
// Whether the shop cuts every flat part: its holes, slots, webs and inner corners, its size and its thickness.

#include <vector>

#include "fitup/findings.h"

namespace fitup::checks {

[[nodiscard]] std::vector<Finding> check_cut_rules(const Plan& plan);

}  // namespace fitup::checks

#pragma once
// One check of a plan by itself, for those who ask it again and again.

#include <string_view>

#include "fitup/findings.h"

namespace fitup::checks {

/// What check_by_rules finds of this check: where that is possible without asking the others.
[[nodiscard]] Findings check_only(const Plan& plan, std::string_view check);

}  // namespace fitup::checks

#pragma once
// Questions that a builder has and that no check answers yet: each a finding "not checked", so that what is silent
// is not taken for sound.

#include <vector>

#include "fitup/findings.h"

namespace fitup::checks {

[[nodiscard]] std::vector<Finding> unchecked();

}  // namespace fitup::checks

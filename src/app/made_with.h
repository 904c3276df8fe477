#pragma once
// The trace of `--set` in what is made.

#include <string>
#include <vector>

#include "fitup/spec.h"

namespace fitup::app {

/// ", made with gap=12, units=in": follows the title wherever that stands; empty without overrides.
[[nodiscard]] std::string made_with(const std::vector<Override>& overrides);

}  // namespace fitup::app

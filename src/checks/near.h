#pragma once
// Broad phase: which boxes come near each other.

#include <cstddef>
#include <utility>
#include <vector>

#include "fitup/geometry.h"

namespace fitup::checks {

/// Pairs (i < j) whose boxes overlap or come within the band on all three axes, ascending.
[[nodiscard]] std::vector<std::pair<std::size_t, std::size_t>> near_pairs(const std::vector<Box3>& boxes,
                                                                          double band_mm);

}  // namespace fitup::checks

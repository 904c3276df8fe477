#pragma once
// Which things stand in a row with each other, from left to right.

#include <cstddef>
#include <vector>

#include "fitup/geometry.h"

namespace fitup::plan {

/// Every row in which each box stands beside the next one, to the left of it, and to which none can be added: a tall
/// thing beside two that stand on each other is in two of them. Indices from left to right. Of more than
/// `most_rows` those are kept that are longest, one at least through each box; `most_mm` is how long each may become.
[[nodiscard]] std::vector<std::vector<std::size_t>> rows_beside(const std::vector<Box3>& boxes,
                                                                const std::vector<double>& most_mm,
                                                                std::size_t most_rows = 64);

}  // namespace fitup::plan

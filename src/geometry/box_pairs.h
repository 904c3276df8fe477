#pragma once
// Which of many boxes are near each other, in about linear time.

#include <cstddef>
#include <functional>
#include <vector>

#include "fitup/geometry.h"

namespace fitup::geometry {

/// Calls near(i, j), i < j, once for each pair of boxes that come within `band_mm` of each other. Looks at `most_looks`
/// pairs at most; false where that was not enough to see them all.
bool each_near_pair(const std::vector<Box2>& boxes, double band_mm, std::size_t most_looks,
                    const std::function<void(std::size_t, std::size_t)>& near);

}  // namespace fitup::geometry

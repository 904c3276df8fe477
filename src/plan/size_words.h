#pragma once
// Lengths as they stand in a part's size and mark. Private to the plan.

#include <algorithm>
#include <cmath>
#include <string>

#include <fmt/format.h>

#include "fitup/geometry.h"

namespace fitup::plan {

/// Millimetres to a ten-thousandth, without trailing zeros: "984", "4.7625".
[[nodiscard]] inline std::string plain(double mm) {
  const double rounded = std::round(mm * 1e4) / 1e4;
  return fmt::format("{}", rounded == 0 ? 0.0 : rounded);
}

/// "992 x 30 x 2 mm": of a flat part, the longer side first.
[[nodiscard]] inline std::string flat_size_words(Vec2 size, double thickness_mm) {
  return fmt::format("{} x {} x {} mm", plain(std::max(size.x, size.y)), plain(std::min(size.x, size.y)),
                     plain(thickness_mm));
}

}  // namespace fitup::plan

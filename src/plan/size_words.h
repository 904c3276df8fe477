#pragma once
// Lengths as they stand in a part's size and mark. Private to the plan.

#include <cmath>
#include <string>

#include <fmt/format.h>

namespace fitup::plan {

/// Millimetres to a ten-thousandth, without trailing zeros: "984", "4.7625".
[[nodiscard]] inline std::string plain(double mm) {
  const double rounded = std::round(mm * 1e4) / 1e4;
  return fmt::format("{}", rounded == 0 ? 0.0 : rounded);
}

}  // namespace fitup::plan

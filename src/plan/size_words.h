#pragma once
// Lengths as they stand in a part's size and mark. Private to the plan.

#include <algorithm>
#include <cmath>
#include <string>

#include <fmt/format.h>

#include "fitup/part.h"

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

/// Of what is squeezed when it is built in as it is bought, and to what: "992 x 400 x 6 mm, squeezed to 4.2 mm".
[[nodiscard]] inline std::string flat_size_words(const Flat& flat) {
  const std::string words = flat_size_words(flat.profile.bounds().size(), flat.bought_mm());
  return flat.free_mm > 0 ? fmt::format("{}, squeezed to {} mm", words, plain(flat.thickness_mm)) : words;
}

}  // namespace fitup::plan

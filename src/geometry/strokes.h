#pragma once
// Lettering in single strokes, as a cutter marks it: capitals, figures and a few signs, all of one width.

#include <string_view>
#include <utility>
#include <vector>

#include "fitup/geometry.h"

namespace fitup::geometry {

/// '^', '!', '<' and '>' are arrows up, down, left and right. Small letters become capitals; what is unknown is a
/// space.
[[nodiscard]] std::vector<std::pair<Vec2, Vec2>> strokes_of(std::string_view text, Vec2 at, double height_mm);

/// From the left of the first letter to the right of the last; `at` is the left end of the base line.
[[nodiscard]] double strokes_width_mm(std::string_view text, double height_mm);

}  // namespace fitup::geometry

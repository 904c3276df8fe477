#pragma once
// What a box is held against at rest, and the six sides that it may be thrown to, in the order of loads.thrown.

#include <array>

#include "fitup/geometry.h"

namespace fitup::loads {

inline constexpr double gravity = 9.80665;      // m/s2
inline constexpr double standing_factor = 1.5;  // on yield, of what carries its load at rest (common practice)
inline constexpr std::array<Vec3, 6> ways{axis::minus_y, axis::y, axis::minus_x, axis::x, axis::z, axis::minus_z};
inline constexpr std::array<const char*, 6> side_words{"front", "back", "left", "right", "top", "bottom"};

}  // namespace fitup::loads

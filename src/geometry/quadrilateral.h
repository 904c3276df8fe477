#pragma once
// A four-sided outline from what a tape says of it: four sides and one or both diagonals.

#include <array>
#include <optional>

#include "fitup/geometry.h"

namespace fitup::geometry {

/// All in mm. Low and high: at the low and the high side of the other axis. `rising` runs from the low corner to the
/// high one.
struct FourSides {
  double across_low = 0;   // along the first axis, at the low side of the second
  double across_high = 0;  // at its high side
  double up_low = 0;       // along the second axis, at the low side of the first
  double up_high = 0;      // at its high side
  std::optional<double> rising;
  std::optional<double> falling;
};

/// Counter-clockwise from the low corner: low-low, high-low, high-high, low-high.
using Corners4 = std::array<Vec2, 4>;

/// Convex, `rising` along the first axis. Nothing where a side and its neighbour are too short or too long for the
/// diagonal. Precondition: one diagonal at least; `falling` counts only where `rising` is absent.
[[nodiscard]] std::optional<Corners4> corners_from(const FourSides& sides);

/// The falling diagonal that the four sides and the rising one make.
[[nodiscard]] std::optional<double> falling_from(const FourSides& sides);

/// The six measures changed as little as possible (least squares, all alike) until they close. Those of five stay as
/// they are. Nothing where no change of this size closes them.
[[nodiscard]] std::optional<FourSides> closed(const FourSides& sides);

/// Moved and turned, not bent, so that the corners come as near as can be (least squares) to those of the rectangle
/// from the origin to `size`.
[[nodiscard]] Corners4 laid_on(const Corners4& corners, Vec2 size);

/// Where a point of the rectangle from the origin to `size` comes to be when its sides become the corners' and all
/// lengths along them are divided alike (bilinear): straight lines along the axes stay straight.
[[nodiscard]] Vec2 carried(const Corners4& corners, Vec2 size, Vec2 point);

}  // namespace fitup::geometry

#pragma once
// Where a block stands: a map of the plane that keeps lines straight.

#include <cmath>

#include "fitup/geometry.h"

namespace fitup::inspect {

struct Placing {
  Vec2 x{1, 0};  // what the unit vectors become
  Vec2 y{0, 1};
  Vec2 origin;

  [[nodiscard]] Vec2 point(Vec2 p) const { return origin + p.x * x + p.y * y; }
  [[nodiscard]] bool mirrors() const { return cross(x, y) < 0; }
  /// Circles stay circles.
  [[nodiscard]] bool keeps_shape() const {
    const double size = std::max(norm(x), norm(y));
    return std::abs(norm(x) - norm(y)) <= 1e-9 * size && std::abs(dot(x, y)) <= 1e-9 * size * size;
  }
  [[nodiscard]] double size() const { return std::max(norm(x), norm(y)); }
  /// (a * b).point(p) == a.point(b.point(p))
  friend Placing operator*(const Placing& a, const Placing& b) {
    const Vec2 ox = a.point(b.x) - a.origin;
    const Vec2 oy = a.point(b.y) - a.origin;
    return {ox, oy, a.point(b.origin)};
  }
};

}  // namespace fitup::inspect

#pragma once
// Ellipses and splines as points along them.

#include <optional>
#include <vector>

#include "inspect/dxf_entity.h"

namespace fitup::inspect {

struct Curve {
  std::vector<Vec2> points;
  bool closed = false;
  bool flat = true;  // all at one height
};

/// The two axes as vectors from the centre, from one parameter to another (radians, counter-clockwise).
[[nodiscard]] std::vector<Vec2> ellipse_points(Vec2 centre, Vec2 major, Vec2 minor, double from, double to);

/// ELLIPSE and SPLINE; none where a number is missing or makes no sense.
[[nodiscard]] std::optional<Curve> ellipse_of(const DxfEntity& entity);
[[nodiscard]] std::optional<Curve> spline_of(const DxfEntity& entity);

}  // namespace fitup::inspect

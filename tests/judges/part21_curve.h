#pragma once
// The curve of an edge in a Part 21 file, and sums along it.

#include <functional>

#include "fitup/geometry.h"
#include "fitup/result.h"
#include "judges/part21.h"

namespace fitup::judges {

/// A point of an edge and its derivative by the parameter.
struct CurvePoint {
  Vec3 at;
  Vec3 slope;
};

/// An edge from its first vertex (parameter 0) to its second (parameter 1).
using EdgeCurve = std::function<CurvePoint(double)>;

/// Lines, circles, ellipses and B-splines (rational too). Failure: another kind, named.
[[nodiscard]] Result<EdgeCurve> edge_curve(const Part21File& file, int edge);

/// The integral of form(at, slope) from 0 to 1, by Gauss-Legendre over panels.
[[nodiscard]] double integral_along(const EdgeCurve& edge, const std::function<double(const CurvePoint&)>& form);

}  // namespace fitup::judges

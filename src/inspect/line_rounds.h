#pragma once
// Circles and arcs that are drawn as many short lines.

#include <vector>

#include "inspect/contours.h"

namespace fitup::inspect {

struct LineRound {
  Circle circle;
  std::size_t lines = 0;
  bool whole = false;  // a full circle
};

/// Of one contour: eight lines or more on end whose corners lie on one circle, each turning by less than 31 degrees (a
/// polygon of up to eleven corners is meant as one).
[[nodiscard]] std::vector<LineRound> line_rounds(const Loop& loop);

}  // namespace fitup::inspect

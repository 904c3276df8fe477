#pragma once
// Where what is welded to a frame of tubes finds flat sides. Private to the plan.

#include <algorithm>

#include "plan/face_axes.h"
#include "plan/rails.h"

namespace fitup::plan {

/// From a face of the frame square to that axis, X or Y: where the ring members there and the upright are both flat, as
/// seen along the face, so that a plate may stand between all of them.
inline Span shared_flats(const Shell& shell, int square, const Host& upright) {
  const Host& ring = shell.bottom[low];
  const double round = std::max(ring.round_mm, upright.round_mm);
  const double wide = along(ring.box.size(), 1);
  return {round, std::min(wide - ring.round_mm, along(upright.box.size(), square) - upright.round_mm)};
}

}  // namespace fitup::plan

#pragma once
// Where what is welded to a frame of tubes finds flat sides. Private to the plan.

#include <algorithm>

#include "plan/face_axes.h"
#include "plan/rails.h"

namespace fitup::plan {

/// From a face of the frame square to that axis, X or Y: where the members of both rings there and the upright are
/// flat, as seen along the face, so that a plate may stand between all of them.
inline Span shared_flats(const Shell& shell, int square, const Host& upright) {
  const auto flat = [](const Host& host, int axis) {
    return Span{host.round_mm, along(host.box.size(), axis) - host.round_mm};
  };
  const Span bottom = flat(shell.bottom[low], 1);
  const Span top = flat(shell.top[low], 1);
  const Span post = flat(upright, square);
  return {std::max({bottom.low, top.low, post.low}), std::min({bottom.high, top.high, post.high})};
}

}  // namespace fitup::plan

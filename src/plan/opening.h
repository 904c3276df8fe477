#pragma once
// What a face of the frame leaves open between everything that is welded there. Private to the plan.

#include <array>

#include "plan/build.h"

namespace fitup::plan {

/// Along two axes of the face (0: X, 1: Y, 2: Z), frame coordinates. The strips welded in for a flat cover are taken
/// off; what is bolted is not.
struct Opening {
  std::array<int, 2> axes{};
  std::array<double, 2> low_mm{};
  std::array<double, 2> high_mm{};
  [[nodiscard]] double size_mm(int i) const {
    return high_mm[static_cast<std::size_t>(i)] - low_mm[static_cast<std::size_t>(i)];
  }
};

/// Of every face but the bottom, which the rails cross.
[[nodiscard]] Opening opening_of(const Build& build, Face face);

/// False, and said, where a bolted rod plate of this size does not go in through that face.
[[nodiscard]] bool passes(Build& build, Face face, Vec3 rod_plate_size);

/// True if a flat cover's strips are welded in beside that face's uprights, which take no screws there themselves.
[[nodiscard]] bool has_landings(const Build& build, Face face);

}  // namespace fitup::plan

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

/// That, less what the weld nuts, rivet nuts and nut strips that are there by then take of it on the way in to
/// `to_mm`, a place along the way.
[[nodiscard]] Opening opening_past_nuts(const Build& build, Face face, double to_mm);

/// At the front or the back: from the outside, where what stands higher than `low_z` at the bottom of the opening ends,
/// with what holds screws behind it; 0 where nothing does, so that a thing comes in straight.
[[nodiscard]] double sill_depth_mm(const Build& build, Face face, double low_z);

/// What brings it down: "set box.main.frame.bottom_legs to \"down\""; empty where it is up for another reason.
[[nodiscard]] std::string lower_sill(const Build& build);

/// False, and said, where a bolted rod plate does not go in through that face and on over `rods_mm` of the rods.
[[nodiscard]] bool passes(Build& build, Face face, const Box3& rod_plate, double rods_mm);

/// True if a flat cover's strips are welded in beside that face's uprights, which take no screws there themselves.
[[nodiscard]] bool has_landings(const Build& build, Face face);

}  // namespace fitup::plan

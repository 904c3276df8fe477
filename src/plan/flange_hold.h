#pragma once
// What the flanges of covers are screwed into: rings, uprights, and strips that are welded in for them. Private to the
// plan.

#include <optional>

#include "plan/flanged_face.h"

namespace fitup::plan {

constexpr double row_end_mm = 20;  // a row's first screw from the end of what it is screwed into

struct FlangeHold {
  Host host;
  double row_mm = 0;    // from the face of the frame
  double from_end = 0;  // of the first screw
};

/// Adds the strip where one is needed. None where nothing can be screwed into; what is too shallow is said.
[[nodiscard]] std::optional<FlangeHold> hold_of_rim(const FlangedFace& f, const CoverRim& rim);

}  // namespace fitup::plan

#pragma once
// Measures the solids of a STEP file from anywhere.

#include <string_view>
#include <vector>

#include "fitup/geometry.h"
#include "fitup/result.h"

namespace fitup::solid {

/// One solid where it stands, in millimetres.
struct StepBodyMeasure {
  double volume_mm3 = 0;  // negative: inside out
  double area_mm2 = 0;
  bool valid = false;  // the kernel finds nothing wrong with its faces and edges
  Box3 bounds;
};

/// The kernel reads a file that nobody vouches for, so it does so in a process of its own, which ends after
/// `most_seconds` at the latest: whatever happens to it, here a Failure of kind kernel comes back with the reason.
[[nodiscard]] Result<std::vector<StepBodyMeasure>> measure_step(std::string_view bytes, int most_seconds = 30);

}  // namespace fitup::solid

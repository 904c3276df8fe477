#pragma once
// Windows and notches in a rod plate, for what is kept clear through it. Private to the plan.

#include <optional>
#include <string>
#include <vector>

#include "plan/build.h"

namespace fitup::plan {

/// A rod that goes through the plate, and the diameter of its hole.
struct RodThrough {
  InstanceId rod = 0;
  double hole_mm = 0;
};

struct RodSheet {
  InstanceId plate = 0;
  Box3 box;
  std::string side;  // "front"
  double thickness_mm = 0;
  std::vector<RodThrough> rods{};
};

/// The outline that stays, without the rods' holes; or says which zone takes too much of it.
[[nodiscard]] std::optional<Profile> with_windows(Build& build, const RodSheet& sheet);

}  // namespace fitup::plan

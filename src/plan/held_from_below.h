#pragma once
// Where screws hold items from below, across the rails that they go through. Private to the plan.

#include <vector>

#include "plan/build.h"

namespace fitup::plan {

struct HeldFromBelow {
  double across_mm = 0;  // the hole's middle, along the axis on which rails are placed
  const Thread* thread = nullptr;
};
/// Of all items that stand at the rails' upper side, in their order.
[[nodiscard]] std::vector<HeldFromBelow> held_from_below(const Build& build);

}  // namespace fitup::plan

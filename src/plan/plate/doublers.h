#pragma once
// Plates under the top's border that carry lift bosses together with it. Private to the plan.

#include "plan/build.h"

namespace fitup::plan {

/// Between a boss's hole and the border's edge, so that doubler and border keep the web that the shop asks for.
[[nodiscard]] double doubler_rim_mm(const Build& build);

/// In a box of plates, of each lift boss, one of several whose doublers would meet; in a framed one nothing. Says so
/// where doublers at different edges would overlap.
void add_doublers(Build& build);

}  // namespace fitup::plan

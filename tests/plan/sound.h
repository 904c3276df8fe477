#pragma once
// The whole of what a yielding member is held against, the kernel's judgement included.

#include <vector>

#include "fitup/model.h"
#include "plan/stand.h"

namespace fitup::test {

/// The member's solid as the program builds it.
Solid built(const Member& member);
/// The bar as it is rolled, uncut.
Solid rolled(const plan::Obstacle& bar);

/// Shape, clearance by places and by the kernel (at least the gap; `slack_mm` at most from something), rebuilt solid
/// of the same volume and in the same place, volume of the data equal to the kernel's.
void expect_sound(const plan::Obstacle& uncut, const Yielded& bar, const std::vector<plan::Obstacle>& earlier,
                  double gap_mm, double slack_mm);

/// Volume of the program's solid, of its data and of the one rebuilt from the numbers agree.
void expect_same_volumes(const Member& member);

}  // namespace fitup::test

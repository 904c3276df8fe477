#pragma once
// A second way from a member's printed numbers to a solid, for comparison.

#include "fitup/model.h"
#include "fitup/plan.h"

namespace fitup::test {

/// Builds a member as someone reads the cut list: each leg out of one plate per band, a wedge off each corner, the
/// root fillet as a piece of its own less what the legs' cuts take of it, toes rounded at last, holes drilled.
/// Uses the section, the length, the steps, corners and holes alone.
Solid from_numbers(const Member& member);

}  // namespace fitup::test

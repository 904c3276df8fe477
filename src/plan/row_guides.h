#pragma once
// Printed guides that step a drill along a row of holes. Private to the plan.

#include "plan/build.h"

namespace fitup::plan {

/// One for each distance, each place across the leg and each drill among the rows of screws that are drilled in sawn
/// members by hand: two holes as far apart as two of the row, and a lip that lies against the member's edge. Rows that
/// do not step evenly have none, nor has a step that is longer than usual printers reach.
void add_row_guides(Build& build);

}  // namespace fitup::plan

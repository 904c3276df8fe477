#pragma once
// Rows of cover screws by rule against all else that stands in the finished box. Private to the plan.

#include "plan/build.h"

namespace fitup::plan {

/// Finds which screws of rows by rule stand in what they are not joined to, head against head, or in the bead of what
/// is welded to the steel that they hold in; adds the gaps that their rows need to `row_gaps`, for another trial. Where
/// moving along the row does not help, none.
void keep_rows_clear(Build& build);

}  // namespace fitup::plan

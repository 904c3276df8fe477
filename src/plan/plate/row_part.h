#pragma once
// Where the walls of a box of plates take the screws of a cover at the left or the right. Private to the plan.

#include "plan/build.h"

namespace fitup::plan {

/// Height above which no floor stands behind the wall at the left or the right, and no edge of a tray where a cover
/// closes it.
[[nodiscard]] double free_from_mm(const Build& build, Face face);

/// What of a host beside that face takes a row of screws. Of a wall, what no other plate ends at: above the floor,
/// below the top, between the front and the back; beside its opening between the strips that run along. Any other
/// host as it is.
[[nodiscard]] Host row_part(const Build& build, Face face, const Host& host);

}  // namespace fitup::plan

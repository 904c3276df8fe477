#pragma once
// What the beads of plate feet ask of the sheet above them. Private to the plan.

#include "plan/build.h"

namespace fitup::plan {

/// From the frame's underside up a face's outside: room for the bead of feet that stand out beyond that face, so that a
/// plate welded over the face ends above it; 0 where none do, or where they lie on a plate under the ring.
[[nodiscard]] double kept_for_feet_mm(const Build& build, Face face);

/// Whether that bead would stand in the flange of a cover that laps the sides, where a foot is below it.
[[nodiscard]] bool bead_meets_flange(const Build& build, Face cover);

}  // namespace fitup::plan

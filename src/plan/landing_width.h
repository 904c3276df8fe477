#pragma once
// How wide what a flat cover is screwed to stands beside an opening. Private to the plan.

#include "plan/build.h"

namespace fitup::plan {

/// Width of a face's landing strips, of its outward ring, or of a ring of plate beyond its walls: what the spec says;
/// else its default, or as wide as the screws of its rows ask for where that is more: the seat of what holds them, and
/// their holes with the web that the shop cuts on either side.
[[nodiscard]] double landing_width_mm(const Build& build, Face face);

/// Thickness of the strips that are welded in beside members of this thickness, flush with them outside: the same, or
/// if the shop has no such sheet the next thicker one that it has.
[[nodiscard]] double landing_thickness_mm(const Build& build, double member_mm);

}  // namespace fitup::plan

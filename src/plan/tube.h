#pragma once
// Members of square and rectangular tube: their walls, bodies and volumes from the section alone. Private to the plan.

#include "fitup/plan.h"

namespace fitup::plan {

[[nodiscard]] inline bool is_tube(const Section& section) { return section.shape == SectionShape::tube; }

/// What a member keeps of one wall through its whole thickness: x along the member, y across the wall from the heel
/// edge. Leg A is the wall at y = 0 of the section, leg B that at x = 0; `far` is the one opposite.
[[nodiscard]] Loop wall_outline(const Member& member, Leg leg, bool far);

/// One prism, the hollow section run from end to end; exact. What a mitre leaves is prisms across its leg: the four
/// walls exactly, the corners bounded by layers.
[[nodiscard]] Body tube_body(const Member& member);

/// Area times length, less what the mitres take and a wall's thickness of each hole. Holes are in the flat of a wall.
[[nodiscard]] double tube_volume_mm3(const Member& member);

}  // namespace fitup::plan

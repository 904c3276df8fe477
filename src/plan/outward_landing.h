#pragma once
// A flat cover on a ring of strips round the frame, outside of the opening, with a seal where there is one. Private to
// the plan.

#include "plan/build.h"

namespace fitup::plan {

/// Cuts the strips with mitred ends, welds them to the frame and each other, lays the seal, and screws the cover on
/// outside of it.
void add_outward_cover(Build& build, Face face);

/// Thickness of the ring's strips, level with the frame's face: that of its legs; beside a tube what reaches beyond its
/// round corner by as much as its wall, at least 4 mm, so that a seam finds flat steel inside, in usual thicknesses of
/// flat bar.
[[nodiscard]] double landing_strip_mm(const Build& build);
[[nodiscard]] double landing_strip_mm(const Shell& shell);

/// From the frame's edge to the far side of the seal; 0 where there is none.
[[nodiscard]] double seal_end_mm(const FaceSpec& face);

/// Whether the flange of the cover of `other` laps the frame where an outward landing of `face` would stand.
[[nodiscard]] bool laps_strips_of(const BoxSpec& box, Face face, Face other);

/// Leg of the fillets that weld a face's plate to the frame.
[[nodiscard]] double plate_bead_mm(const Build& build, Face face);

/// How far the ring of a neighbouring face stands over this face's edge there, with room for its weld, and for the
/// screws that come through it before a cover, or before a plate that what holds them reaches over; 0 if none does.
[[nodiscard]] double kept_for_landing_mm(const Build& build, Face face, Face neighbour);

}  // namespace fitup::plan

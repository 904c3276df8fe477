#pragma once
// The section of the bead that a piece of a contact's edge takes: from what of the two bodies goes on beyond it.

#include <optional>

#include "checks/contact_edges.h"
#include "fitup/seams.h"

namespace fitup::checks {

/// In the plane across the path: `out` from the contact's edge, `up` the axis from the low body's face.
struct BeadSection {
  SeamKind kind = SeamKind::fillet;
  bool climbs_high = true;  // of a fillet: it lies on the low body and climbs the high one; else the other way about
  double size_mm = 0;       // leg or throat
  Loop outline;             // x out, y up
};

/// `wanted_mm`: leg of a fillet, and of a butt or an edge the most that it is deep. None where both bodies go on, or
/// where one of them leaves no room for a bead of least_bead_mm().
[[nodiscard]] std::optional<BeadSection> bead_section(const Facing& facing, const ContactEdge& piece, double wanted_mm);

/// The least leg or throat where so much is wanted: half of it, and no bead under a millimetre but one that is wanted
/// so (common practice).
[[nodiscard]] double least_bead_mm(double wanted_mm);

/// How high a cap of this width may stand: ISO 5817, quality level C, 1 mm + 0.15 of its width, 7 mm at most (from
/// memory).
[[nodiscard]] double cap_height_mm(double width_mm);

}  // namespace fitup::checks

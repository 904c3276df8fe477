#pragma once
// Plates between the sheet of a box of plates and what feet and lugs are welded to. Private to the plan.

#include <string>

#include "plan/build.h"

namespace fitup::plan {

/// How far a doubler reaches beyond what stands on it, for the beads of both (common practice).
inline constexpr double beside_mount_mm = 15;

/// Thickness of the doubler under a foot or a lug whose metal, `metal_mm` thick, lies on that face: that of the sheet where
/// the metal is more than half as thick again (common practice), else 0. Also 0 where no sheet's face is: in a framed box,
/// and below, where feet stand on the edges of the walls or on a base ring.
[[nodiscard]] double mount_doubler_mm(const Build& build, Face face, double metal_mm, bool is_angle);

/// The doubler on that face under what lies against it in `against`: it ends before the edges of the face, and of the
/// border where the face is open, for its bead.
[[nodiscard]] Box3 mount_doubler_box(const Build& build, Face face, const Box3& against, double thickness_mm);

/// It, not welded to anything yet; `of` names the foot or the lug.
InstanceId add_mount_doubler(Build& build, Face face, const Box3& box, const std::string& of, const Origin& origin);

}  // namespace fitup::plan

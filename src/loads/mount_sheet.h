#pragma once
// The sheet of a box of plates that a foot or a lug lies on, with the doubler between them, as the strip that bends
// under what its bolt pulls.

#include <optional>

#include "fitup/pattern.h"
#include "fitup/seams.h"
#include "loads/hold_down.h"

namespace fitup::loads {

struct MountSheet {
  InstanceId sheet = 0;
  InstanceId root = 0;  // what the sheet is welded to along the nearest line that holds it
  std::optional<InstanceId> doubler;
  bool as_one = false;          // the doubler lies across that line and is welded all round
  double thickness_mm = 0;      // of what bends: the sheet, or the two as one
  double tension_lever_mm = 0;  // of the bolt's tension about that line,
  double shear_lever_mm = 0;    // and of its shear, whichever way that goes
  double length_mm = 0;         // of the line that takes the moment
};

/// What the bolt brings in turns the foot about the line, beyond which its other edge presses on the sheet: the moment
/// there is that of the bolt's force, wherever the foot ends. It spreads at 45 degrees from the farthest edge of what
/// is welded on the sheet, or of the foot on its doubler, no farther than the line goes (common practice, as under a
/// lift boss). Nothing where the foot stands on no face of a wall, and where no line across the bolt holds that.
[[nodiscard]] std::optional<MountSheet> mount_sheet(const Plan& plan, const Seams& seams, const PatternHole& hole);

/// The wall whose face a foot or a lug lies on, itself or on a doubler.
[[nodiscard]] std::optional<InstanceId> sheet_under(const Plan& plan, InstanceId mount);

/// Stress of the strip, its section plastic, MPa. What presses goes straight into the edge of the wall beside it.
[[nodiscard]] double sheet_mpa(const MountSheet& sheet, const BoltForce& force);

/// Which feet and lugs are welded to edges of plates that stand square to theirs, and carry as those do in their plane.
[[nodiscard]] bool stands_on_edges(const Plan& plan, InstanceId mount);

}  // namespace fitup::loads

#pragma once
// Faces that are closed by the shell's own walls. Private to the plan.

#include "plan/build.h"

namespace fitup::plan {

[[nodiscard]] inline bool is_of_plates(const BoxSpec& box) { return *box.build == BuildKind::plate; }

/// Thickness of what closes a face from outside: in a box of plates nothing is laid on its walls.
[[nodiscard]] inline double laid_on_mm(const BoxSpec& box, Face face) {
  const FaceSpec& spec = box.face(face);
  const bool plate = *spec.closed_by == Closure::plate && *spec.set == PlateSet::outside && !is_of_plates(box);
  return plate ? box.face(face).thickness->mm() : 0;
}

/// From the outside of the frame to the inner side of what closes a face.
[[nodiscard]] inline double within_mm(const Build& build) {
  return is_of_plates(build.box_spec()) ? build.shell.side_wall_mm : 0;
}

}  // namespace fitup::plan

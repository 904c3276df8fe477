#pragma once
// Faces that are closed by the shell's own walls. Private to the plan.

#include "plan/build.h"

namespace fitup::plan {

[[nodiscard]] inline bool is_of_plates(const BoxSpec& box) { return *box.build == BuildKind::plate; }

/// Whether the shell's own plate closes a face that is to be closed by a plate: under a base ring one is laid on.
[[nodiscard]] inline bool is_shell_wall(const BoxSpec& box, Face face) {
  return is_of_plates(box) && !(face == Face::bottom && box.plates.base_ring);
}

/// Thickness of what closes a face from outside: in a box of plates nothing is laid on its walls.
[[nodiscard]] inline double laid_on_mm(const BoxSpec& box, Face face) {
  const FaceSpec& spec = box.face(face);
  const bool plate = *spec.closed_by == Closure::plate && *spec.set == PlateSet::outside && !is_shell_wall(box, face);
  return plate ? box.face(face).thickness->mm() : 0;
}

/// Section of a ring at the bottom or the top of the frame; of a box of plates that of its base ring, if it has one.
[[nodiscard]] inline const Section* ring_section(const Build& build, Side level) {
  const BoxSpec& box = build.box_spec();
  if (is_of_plates(box) && level == low && box.plates.base_ring) return build.spec.section(**box.plates.base_ring);
  const bool own_top = level == high && !box.frame.top_section->empty();
  return build.spec.section(own_top ? *box.frame.top_section : *box.frame.section);
}

/// From the outside of the frame to the inner side of what closes a face.
[[nodiscard]] inline double within_mm(const Build& build) {
  return is_of_plates(build.box_spec()) ? build.shell.side_wall_mm : 0;
}

}  // namespace fitup::plan

// Rows of a cover's screws in a wall keep clear of the plates that end at it, whose tabs go through it.
// Entry: free_from_mm, row_part.
#include "plan/plate/row_part.h"

#include <algorithm>

#include "plan/face_axes.h"
#include "plan/plate/walls.h"

namespace fitup::plan {

double free_from_mm(const Build& build, Face face) {
  const BoxSpec& box = build.box_spec();
  const bool tray = *box.plates.floor == FloorKind::tray && *box.face(face).closed_by == Closure::cover;
  return tray ? build.shell.opening_z[low] : build.shell.deck_mm;
}

Host row_part(const Build& build, Face face, const Host& host) {
  const Shell& shell = build.shell;
  const bool wall =
      is_of_plates(build.box_spec()) && axis_of(face) == 0 && host.id == shell.upright[low][side_of(face)].id;
  if (!wall) return host;
  Host part = host;
  const double from = free_from_mm(build, face);
  const double border = shell.size.z - shell.opening_z[high];
  const bool whole = host.box.size().y > shell.size.y - tolerance::contact_mm;
  part.box.low.y = std::max(host.box.low.y, shell.end_wall_mm);
  part.box.high.y = std::min(host.box.high.y, shell.size.y - shell.end_wall_mm);
  part.box.low.z = std::max(host.box.low.z, whole ? from : from + border);
  part.box.high.z = std::min(host.box.high.z, whole ? shell.size.z - shell.side_wall_mm : shell.opening_z[high]);
  return part;
}

}  // namespace fitup::plan

// At which sides plate feet stand, and how high the bead along their outer edge climbs there.
// Entry: kept_for_feet_mm, bead_meets_flange.
#include "plan/feet_beads.h"

#include <algorithm>

#include "fitup/tolerances.h"
#include "plan/face_axes.h"
#include "plan/flange_edges.h"
#include "plan/plate/walls.h"

namespace fitup::plan {

namespace {

// By rule to the left and the right; where places are given, of the sides that they may be beyond the first.
bool stand_beyond(const Build& build, const MountSpec& feet, Face face) {
  const int axis = axis_of(face);
  if (feet.out && axis_of(**feet.out) != axis) return false;
  if (!feet.at) return feet.out || axis == 0;
  return std::any_of(feet.at->value.begin(), feet.at->value.end(), [&](const std::array<Length, 2>& given) {
    const auto at = in_face(build, 2, {given[0].mm(), given[1].mm()}, feet.at_from);
    const auto beyond = [&](Face side) {
      const double place = at[static_cast<std::size_t>(axis_of(side))];
      const double size = along(build.shell.size, axis_of(side));
      return side_of(side) == low ? place < -tolerance::contact_mm : place > size + tolerance::contact_mm;
    };
    const bool first_beyond = axis == 1 && !feet.out && (beyond(Face::left) || beyond(Face::right));
    return beyond(face) && !first_beyond;
  });
}

double bead_leg_mm(const Build& build) {
  const BoxSpec& box = build.box_spec();
  if (box.welds.leg) return (*box.welds.leg)->mm();
  return std::min(box.feet->thickness->mm(), ring_section(build, low)->thickness_mm);
}

}  // namespace

bool bead_meets_flange(const Build& build, Face cover) {
  const BoxSpec& box = build.box_spec();
  if (!box.feet || laid_on_mm(box, Face::bottom) > 0) return false;
  // The flange begins that far above the frame's underside, and its gap before the frame's side.
  const double below = hold_back_mm(build.shell) + box.face(cover).gap->mm();
  return bead_leg_mm(build) > below + tolerance::contact_mm;
}

double kept_for_feet_mm(const Build& build, Face face) {
  const BoxSpec& box = build.box_spec();
  if (!box.feet || *box.feet->kind != MountKind::plate || axis_of(face) == 2) return 0;
  if (laid_on_mm(box, Face::bottom) > 0 || !stand_beyond(build, *box.feet, face)) return 0;
  return bead_leg_mm(build);
}

}  // namespace fitup::plan

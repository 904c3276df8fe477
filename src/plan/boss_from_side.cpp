// Places of lift bosses across the strips that they stand on.
// Entry: boss_rim_mm, boss_from_side_mm.
#include "plan/boss_from_side.h"

#include <algorithm>

#include "fitup/tolerances.h"
#include "plan/boss_fit.h"
#include "plan/boss_openings.h"
#include "plan/face_axes.h"
#include "plan/holes.h"
#include "plan/plate/doublers.h"
#include "plan/plate/walls.h"

namespace fitup::plan {

double boss_rim_mm(const Build& build) {
  return is_of_plates(build.box_spec()) ? std::max(least_boss_rim_mm, doubler_rim_mm(build)) : least_boss_rim_mm;
}

double boss_from_side_mm(Build& build, Side side, const BossRows& rows, const RuleSteps& steps) {
  const double half = rows.diameter_mm / 2 + boss_fit_mm;
  const double nearest = build.shell.top_root_mm + half;
  const double most = rows.leg_mm - half - boss_rim_mm(build);
  double beside = nearest;
  for (const Side s : {low, high}) {  // both alike, so that it hangs level
    if (!is_of_plates(build.box_spec())) break;
    beside = std::max(beside, clear_of_reliefs_mm(build, face_at(0, s), {nearest, most}, rows.along[s], half));
  }
  const double clear = std::max(beside, clear_of_sheet_mm(build, face_at(0, side), rows.diameter_mm));
  for (const double place : {steps.place_up(clear), clear, beside, steps.place_up(nearest)}) {
    if (place <= most + tolerance::contact_mm) return place;
  }
  return nearest;
}

}  // namespace fitup::plan

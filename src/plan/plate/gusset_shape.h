#pragma once
// A triangular plate in the corner of two others, in closed form: its outline and the tabs along one of its legs.
// Private to the plate build.

#include <vector>

#include "fitup/geometry.h"
#include "plan/plate/joints.h"

namespace fitup::plan::plate {

/// The corner of the two plates at the origin; a tab along x = 0, through the plate there. The gusset's own corner is cut
/// off, so that it clears their seam; its two tips are cut square, so that they do not burn away: by as much as is common
/// practice for plates of a few millimetres.
struct GussetShape {
  double leg_mm = 0;
  double thickness_mm = 0;
  double through_mm = 0;  // thickness of what the tabs go through
  double beside_mm = 0;   // free seam beside a tab, at least
  double relief_mm = 0;

  /// What the corner is cut off by, along either leg.
  [[nodiscard]] double snipe_mm() const;
  [[nodiscard]] double nose_mm() const;
  /// Along the leg, from the corner: one in its middle; none where it is too short for that.
  [[nodiscard]] std::vector<Stretch> tabs() const;
  /// The shortest leg with a tab.
  [[nodiscard]] double least_leg_mm() const;
  /// Tabs stand out by this.
  [[nodiscard]] Profile profile(double tab_mm) const;
  /// Whether it takes room at or beyond this place: from x on to larger x, from y on to larger y.
  [[nodiscard]] bool reaches(double x, double y) const;
};

}  // namespace fitup::plan::plate

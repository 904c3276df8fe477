#pragma once
// The triangular plate in a corner, of frames and of boxes of plates alike. Private to the plan.

#include <string>

#include "fitup/part.h"

namespace fitup::plan {

/// What its own corner is cut off by along either leg, so that it clears the weld there: 10 mm or two thicknesses of
/// the thickest that meet, at most a third of the leg (common practice for plates of a few millimetres).
[[nodiscard]] double gusset_snipe_mm(double leg_mm, double thickest_mm);
/// How far its two tips are cut square, so that they do not burn away.
[[nodiscard]] double gusset_nose_mm(double leg_mm, double thickness_mm);

/// GUS01, of that outline.
[[nodiscard]] Part gusset_part(Profile profile, double thickness_mm, const std::string& material);

}  // namespace fitup::plan

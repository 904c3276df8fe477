#pragma once
// Flanges of covers that are lengths of angle: one leg lies on the sheet from outside, the other laps the frame.
// Private to the plan.

#include "plan/flanged_face.h"

namespace fitup::plan {

/// Says why flanges of this angle cannot be there.
bool can_have_angles(const FlangedFace& f);

/// The length of angle at a rim, sawn as its corners ask.
InstanceId add_angle(const FlangedFace& f, const CoverRim& rim);

/// Which way a weld between two of them faces, from the one between to the one that runs whole.
[[nodiscard]] Vec3 towards_whole(const FlangedFace& f, const CoverRim& between, Side end);

}  // namespace fitup::plan

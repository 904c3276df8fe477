#pragma once
// How thick plate feet are that the spec says nothing of. Private to the plan.

#include "plan/build.h"

namespace fitup::plan {

/// The feet as they are built: where their thickness is not stated and something of the box's own steel hangs lower
/// than they would reach, as a ring's outward landing does, of the thinnest plate of the shelf that reaches it, which
/// the draft keeps as what followed; else unchanged.
[[nodiscard]] MountSpec thick_enough(Build& build, const MountSpec& feet);

}  // namespace fitup::plan

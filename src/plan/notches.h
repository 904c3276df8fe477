#pragma once
// Notches in the flanges of covers, where feet, lugs or screws stand in their way. Private to the plan.

#include "plan/build.h"

namespace fitup::plan {

/// Cuts them, once all of the box stands: as wide as what stands there and the face's notch_gap all round. A flange
/// that is bent, or that a notch would cut in two or leave a screw without, is left whole: the checks then find what
/// stands in it.
void notch_flanges(Build& build);

}  // namespace fitup::plan

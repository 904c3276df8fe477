#pragma once
// A frame with rings of tube. Private to the framed build.

#include "plan/build.h"

namespace fitup::plan {

bool build_tube_frame(Build& build, const Section& bottom, const Section& top, const Section& upright);

}  // namespace fitup::plan

#pragma once
// Covers that are one sheet, bent up at its rims. Private to the plan.

#include "plan/flanged_face.h"

namespace fitup::plan {

/// Says if a flange is too low to be bent up.
bool can_be_bent(const FlangedFace& f);

/// Makes the sheet a flat pattern with its bends.
void bend_up(const FlangedFace& f, InstanceId sheet);

}  // namespace fitup::plan

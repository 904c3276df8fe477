#pragma once
// Plates that would find their slots turned round too. Private to the plan.

#include "plan/build.h"

namespace fitup::plan::plate {

/// Once all of the box stands: each plate of the shell whose tabs and slots would fit turned round or over as well,
/// while its other holes would then be elsewhere, is to have the tabs of its seams along an axis set aside
/// (Build::one_way), until it fits one way alone. Which way follows from where its holes are, so that the opposite hand
/// is the reflection. Others keep their even tabs.
void keep_from_turning(Build& build);

}  // namespace fitup::plan::plate

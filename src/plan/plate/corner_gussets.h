#pragma once
// Triangular plates under the top of a box of plates, in its corners with the left and the right wall. Private to the
// plan.

#include "plan/build.h"

namespace fitup::plan {

/// In a box of plates that asks for gussets, once all else stands: two at either wall, square to it and to the top, as
/// near to the front and to the back as all that stands, hangs and goes in there leaves them room; those at the left and
/// the right in one place, so that the opposite hand is the reflection. Tabs go through slots of the wall, which comes
/// last; the top lies on them. Where there is no room, says which leg has. Elsewhere nothing.
void add_corner_gussets(Build& build);

}  // namespace fitup::plan

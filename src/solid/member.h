#pragma once
// A member's solid from its numbers.

#include <TopoDS_Solid.hxx>

#include "fitup/plan.h"

namespace fitup::solid {

/// The section run along local z, less what the end cuts take from each leg and less the holes.
/// Throws inside `guarded`.
[[nodiscard]] TopoDS_Solid member_solid(const Member& member);

}  // namespace fitup::solid

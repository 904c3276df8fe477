#pragma once
// What a foot or a lug is welded to. Private to the plan.

#include <vector>

#include "plan/build.h"
#include "plan/room.h"

namespace fitup::plan {

/// A foot or a lug in the draft, and the boxes that it fills.
struct MountPlace {
  InstanceId id = 0;
  Face face = Face::bottom;  // that it lies on
  Box3 against;              // the part of it that lies there
  std::vector<Box3> all;
};

/// Welds it to the plate over the face, else to what of the frame it lies on, and to plates and uprights that it
/// touches elsewhere; whatever else it touches, it just may. False if nothing holds it.
[[nodiscard]] bool weld_mount(Build& build, const MountPlace& mount, const std::vector<Taken>& taken);

/// From that end of the frame along an axis to the longest member or upright that lies at the face; 0 where a plate
/// covers them.
[[nodiscard]] double longest_begins_mm(const Build& build, Face face, int axis, Side end);

}  // namespace fitup::plan

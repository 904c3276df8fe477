#pragma once
// Points in placed bodies, and the planes across an axis in which a body has faces.

#include <vector>

#include "checks/placed.h"

namespace fitup::checks {

/// True if the point lies in one of the prisms; on a face either. Bores count where they pierce a prism along its axis.
[[nodiscard]] bool occupies(const Stack& stack, Vec3 p);

/// All edges of the faces that a body has in one plane across an axis, those between two of its prisms included.
struct FacePlane {
  double at_mm = 0;
  std::vector<Edge> edges;
};

/// By ascending place. What stands askew has none.
[[nodiscard]] std::vector<FacePlane> face_planes(const Stack& stack, int axis);

}  // namespace fitup::checks

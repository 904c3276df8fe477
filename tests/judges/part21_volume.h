#pragma once
// The volume of a solid in a Part 21 file, by the divergence theorem.

#include "fitup/result.h"
#include "judges/part21.h"

namespace fitup::judges {

/// V = 1/3 of the flux of the position through the faces; each face's flux becomes a sum along its edges (Green).
/// Planes, cylinders and cones. Failure: another surface or curve, named; a shell whose edges do not pair up.
[[nodiscard]] Result<double> volume_of_solid(const Part21File& file, int manifold_solid_brep);

}  // namespace fitup::judges

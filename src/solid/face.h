#pragma once
// A profile as one planar face of the kernel.

#include <TopoDS_Face.hxx>

#include "fitup/geometry.h"

namespace fitup::solid {

/// In the pose's x-y plane. A loop that is a circle is one circular edge. Throws what the kernel throws.
[[nodiscard]] TopoDS_Face face_of(const Profile& profile, const Pose& pose);

}  // namespace fitup::solid

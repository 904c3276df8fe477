#pragma once
// The corners and circles of one solid in a STEP file, read from its text alone.

#include <vector>

#include "fitup/geometry.h"
#include "output/part21.h"

namespace fitup::output {

struct StepCircle {
  Vec3 centre;
  Vec3 axis;
  double radius_mm = 0;
};

struct StepShape {
  std::vector<Vec3> corners;  // of the vertices, in the order of the file
  std::vector<StepCircle> circles;
  std::size_t faces = 0;
};

/// Everything that the instance `solid` leads to.
[[nodiscard]] StepShape shape_of(const StepData& data, int solid);

/// The box around the corners.
[[nodiscard]] Box3 corner_box(const StepShape& shape);
/// The box around corners and whole circles: what the solid's round edges can reach at most.
[[nodiscard]] Box3 reach_box(const StepShape& shape);

}  // namespace fitup::output

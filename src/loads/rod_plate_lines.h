#pragma once
// The lines along which a rod plate's seams hold it.

#include <vector>

#include "fitup/seams.h"

namespace fitup::loads {

/// Where all seams run one way; seams nearer than 10 mm to each other hold one line, which lies where their throats do
/// on the average.
struct HeldLines {
  double span_mm = 0;     // the widest between two beside each other; 0: it is held in another way
  double throat_mm2 = 0;  // of the line with the least
  Vec3 along;
};
/// `z`: of the plate.
[[nodiscard]] HeldLines held_lines(const std::vector<const Seam*>& seams, Vec3 z);

/// How long a flat part is along them: what stretches it pulls over all of that.
[[nodiscard]] double length_along_mm(const Flat& flat, const Pose& pose, const HeldLines& lines);

}  // namespace fitup::loads

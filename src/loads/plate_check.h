#pragma once
// Check "plates": what closes the faces, under its own mass at rest and thrown, and under the pressure that the spec
// states.

#include <vector>

#include "fitup/findings.h"

namespace fitup::loads {

/// A plate or cover in its plane: what lies between its edges or bends.
struct ClosingPlate {
  InstanceId id = 0;
  Box2 area;              // in the part's own plane
  bool cover = false;     // screwed on, else welded
  bool has_cuts = false;  // holes or notches that the table of rectangles does not know
  [[nodiscard]] double long_mm() const;
  [[nodiscard]] double short_mm() const;
};
[[nodiscard]] std::vector<ClosingPlate> closing_plates(const Plan& plan);

[[nodiscard]] std::vector<Finding> check_plates(const Plan& plan);

}  // namespace fitup::loads

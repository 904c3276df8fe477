#pragma once
// Whether the elements of intermittent seams are long enough and near enough to each other.

#include <vector>

#include "checks/scene.h"
#include "fitup/findings.h"

namespace fitup::checks {

/// By the rules that the spec has its seams judged by. For each place of the spec that asks for intermittent seams:
/// elements that are too short fail, gaps that are too wide are marginal. Nothing where all are well.
[[nodiscard]] std::vector<Finding> check_stitches(const Scene& scene);

struct ThinnerPart {
  double thickness_mm = 0;
  double yield_mpa = 0;
  bool is_aluminium = false;
};
struct ElementLimits {
  double least_mm = 0;    // of an element
  double largest_mm = 0;  // of a gap
  const char* least_of;   // where they come from
  const char* largest_of;
};
/// Of a seam with that throat and leg on parts of which that is the thinner. EN 1993-1-8, 4.5.1 (2), for the
/// element: 30 mm and six throats; 4.3.2.2, figure 4.1, for a gap in compression or shear: 12 thicknesses and 200 mm.
/// With AWS D1.1 the steel's own rules, AISC 360: J2.2b, four legs and 1 1/2 in; E6.2, of a plate in compression that is
/// welded along its edges, 0.75 sqrt(E / Fy) thicknesses and 12 in; for aluminium with its own E, 10100 ksi (Aluminum
/// Design Manual). All from memory.
[[nodiscard]] ElementLimits element_limits(WeldCode code, double throat_mm, double leg_mm, ThinnerPart thinner);

}  // namespace fitup::checks

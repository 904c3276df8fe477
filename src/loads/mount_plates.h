#pragma once
// Check "hold-down" of the feet and lugs themselves: the bolt's bearing in the hole and its tear-out to the edge, and
// the plate's bending between the bolt and the seam that holds it.

#include <vector>

#include "fitup/findings.h"
#include "fitup/seams.h"
#include "fitup/weight.h"

namespace fitup::loads {

/// EN 1993-1-8, table 3.4 (from memory): k_1 alpha_b f_u d t / gamma_M2 with the least distance to an edge, e, for both
/// directions: alpha_b = e / (3 d_0), f_ub / f_u or 1, k_1 = 2.8 e / d_0 - 1.7 or 2.5, whichever is least. N.
struct BoltBearing {
  double edge_mm = 0;  // from the hole's middle
  double hole_mm = 0;
  double bolt_mm = 0;
  double thickness_mm = 0;
  double tensile_mpa = 0;  // of the plate
  double bolt_tensile_mpa = 0;
};
[[nodiscard]] double bearing_n(const BoltBearing& b);
/// ANSI/AISC 360, J3.10 (from memory): 1.2 l_c t F_u, at most 2.4 d t F_u, l_c from the hole's edge to the plate's, over
/// Omega = 2. N.
[[nodiscard]] double bearing_aisc_n(const BoltBearing& b);

/// Stress of a strip that stands out `lever_mm` from what holds it and is pulled with `pull_n` at its end: it spreads
/// at 45 degrees to either side of the hole, at most over `width_mm`, its section plastic (W_pl = b t^2 / 4). MPa.
[[nodiscard]] double strip_mpa(double pull_n, double lever_mm, double hole_mm, double width_mm, double thickness_mm);

[[nodiscard]] std::vector<Finding> check_mount_plates(const Plan& plan, const Seams& seams, const Weights& weights);

}  // namespace fitup::loads

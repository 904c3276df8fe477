#pragma once
// Check "seals": whether a cover's sheet stays down on its seal between its screws.

#include <vector>

#include "fitup/findings.h"

namespace fitup::loads {

/// How far a strip of sheet bows up between two screws under an even line load: one span of many, so as if built in at
/// its screws. q in N/mm.
[[nodiscard]] double bow_mm(double q_n_per_mm, double span_mm, double strip_width_mm, double thickness_mm,
                            double e_mpa);
/// Beyond its last screw, to the corner: a cantilever.
[[nodiscard]] double corner_bow_mm(double q_n_per_mm, double overhang_mm, double strip_width_mm, double thickness_mm,
                                   double e_mpa);

/// What squeezed cellular rubber of medium firmness presses back with: 63 kPa where it is squeezed by a quarter (ASTM
/// D1056 2A2 and 2B2, 35 to 63 kPa, from memory), in proportion.
[[nodiscard]] double usual_seal_pressure_kpa(double squeeze);

[[nodiscard]] std::vector<Finding> check_seals(const Plan& plan);

}  // namespace fitup::loads

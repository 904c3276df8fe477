#pragma once
// Strength of materials and of threads. Megapascals, newtons, millimetres.

#include "fitup/tables.h"
#include "tables/strengths.h"

namespace fitup::loads {

using tables::Strength;
using tables::strength_of;

/// What strips the thread in a hole and on the bolt, over a length that both share, with their basic diameters.
/// Shear areas after FED-STD-H28 (from memory), shear strength 0.6 of the tensile one (common practice).
struct ThreadStrength {
  double inner_mm2 = 0;
  double outer_mm2 = 0;
  double inner_n = 0;    // strips the tapped thread
  double outer_n = 0;    // strips the bolt's
  double tensile_n = 0;  // breaks the bolt
};
[[nodiscard]] ThreadStrength thread_strength(const Thread& thread, double shared_mm, double bolt_tensile_mpa,
                                             double tapped_tensile_mpa);
/// Basic: d - 0.6495 P.
[[nodiscard]] double pitch_diameter_mm(const Thread& thread);

}  // namespace fitup::loads

#pragma once
// Yield and tensile strength of materials, by thickness; strength of threads. Megapascals, newtons, millimetres.

#include <optional>
#include <string_view>

#include "fitup/tables.h"

namespace fitup::loads {

struct Strength {
  double yield_mpa = 0;
  double tensile_mpa = 0;
  double weld_beta = 0.8;  // correlation factor of fillet welds, EN 1993-1-8 table 4.1
  const char* source = "";
  double haz_tensile_mpa = 0;  // of an aluminium alloy in the heat-affected zone, EN 1999-1-1 table 3.2; else 0
  double haz_yield_mpa = 0;
  double weld_metal_mpa = 0;  // of one welded with filler 5356, EN 1999-1-1 table 8.8
  [[nodiscard]] bool is_aluminium() const { return weld_metal_mpa > 0; }
};
/// Nothing for a material whose strength the table does not hold.
[[nodiscard]] std::optional<Strength> strength_of(std::string_view material, double thickness_mm);

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

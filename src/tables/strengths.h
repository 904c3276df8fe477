#pragma once
// Yield and tensile strength of materials, by thickness. Megapascals, millimetres.

#include <optional>
#include <string_view>

namespace fitup::tables {

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

}  // namespace fitup::tables

// Strengths by the product standards' least values.
// Entry: strength_of.
#include "tables/strengths.h"

#include <array>

namespace fitup::tables {

namespace {

struct Row {
  std::string_view material;
  double up_to_mm;
  double yield_mpa;
  double tensile_mpa;
  double weld_beta;
  const char* source;
  double haz_yield_mpa = 0;
  double haz_tensile_mpa = 0;
  double weld_metal_mpa = 0;
};

constexpr const char* en_10025 = "EN 10025-2, least values";
constexpr const char* astm = "ASTM, least values";
constexpr const char* en_755 = "EN 755-2, least values";
constexpr const char* en_1999 = "EN 1999-1-1, table 3.2, least values (from memory)";

// Of aluminium alloys the zone beside a weld and the weld metal (filler 5356) as well, of sheet and plate where there
// is one. EN 1999-1-1: table 3.2b (6061-T6, 6060-T66: published, found: dnaop.com, html/60238_7), tables 3.2a and 8.8
// and 6082-T6 from memory. 5083 in H111 loses nothing to the heat (the same page: a factor of 1 for it, extruded).
constexpr std::array<Row, 15> table{{
    {"S235JR", 16, 235, 360, 0.8, en_10025},
    {"S235JR", 40, 225, 360, 0.8, en_10025},
    {"S275JR", 16, 275, 410, 0.85, en_10025},
    {"S275JR", 40, 265, 410, 0.85, en_10025},
    {"S355J2", 16, 355, 470, 0.9, en_10025},
    {"S355J2", 40, 345, 470, 0.9, en_10025},
    {"A36", 200, 250, 400, 0.8, astm},
    {"1.4301", 75, 210, 520, 1, "EN 10088-2, least values (from memory)"},
    {"1.4404", 75, 220, 520, 1, "EN 10088-2, least values (from memory)"},
    {"5052-H32", 40, 130, 210, 1, en_1999, 80, 170, 170},
    {"5083-H111", 50, 125, 275, 1, en_1999, 125, 275, 240},
    {"6061-T6", 25, 240, 260, 1, en_755, 115, 175, 190},
    {"6082-T6", 5, 250, 290, 1, en_755, 125, 185, 210},
    {"6082-T6", 25, 260, 310, 1, en_755, 125, 185, 210},
    {"6060-T66", 3, 160, 215, 1, en_755, 65, 110, 160},
}};

}  // namespace

std::optional<Strength> strength_of(std::string_view material, double thickness_mm) {
  for (const Row& row : table) {
    if (row.material == material && thickness_mm <= row.up_to_mm) {
      return Strength{row.yield_mpa,       row.tensile_mpa,   row.weld_beta,     row.source,
                      row.haz_tensile_mpa, row.haz_yield_mpa, row.weld_metal_mpa};
    }
  }
  return std::nullopt;
}

}  // namespace fitup::tables

// Equal angles in inch sizes: legs, thickness, weight and area as published, radii derived.
// Entry: append_inch_angles().
#include <array>
#include <string_view>

#include "tables/families.h"

namespace fitup::tables {
namespace {

struct Row {
  std::string_view size;
  double leg_in;
  double thickness_in;
  double k_in;  // heel to the end of the root; 0 where the table has none
  double toe_in;
  double weight_lb_per_ft;
  double area_in2;
};

// Thicknesses are the nominal fractions; the published decimals round them (3/16 stands as 0.188).
// Toe: the whole sixteenth that brings the area of the outline nearest to the published one.
constexpr std::array rows{
    Row{"1x1x1/8", 1, 0.125, 0, 0, 0.80, 0.234},
    Row{"1-1/4x1-1/4x1/8", 1.25, 0.125, 0, 0, 1.01, 0.297},
    Row{"1-1/2x1-1/2x1/8", 1.5, 0.125, 0, 0, 1.23, 0.359},
    Row{"1-1/2x1-1/2x3/16", 1.5, 0.1875, 0, 0, 1.80, 0.527},
    Row{"2x2x1/8", 2, 0.125, 0.375, 0.125, 1.65, 0.491},
    Row{"2x2x3/16", 2, 0.1875, 0.4375, 0.125, 2.44, 0.722},
    Row{"2x2x1/4", 2, 0.25, 0.5, 0.125, 3.19, 0.944},
    Row{"2-1/2x2-1/2x3/16", 2.5, 0.1875, 0.4375, 0.1875, 3.07, 0.901},
    Row{"2-1/2x2-1/2x1/4", 2.5, 0.25, 0.5, 0.1875, 4.10, 1.19},
    Row{"3x3x3/16", 3, 0.1875, 0.5625, 0.1875, 3.71, 1.09},
    Row{"3x3x1/4", 3, 0.25, 0.625, 0.25, 4.90, 1.44},
};

constexpr double mm_per_in = 25.4;
constexpr double kg_per_m_of_lb_per_ft = 0.45359237 / 0.3048;

// Where the table has no k: a root of 1/8 in, and the toe that leaves the sharp-cornered area unchanged.
constexpr double bar_root_in = 0.125;
constexpr double inverse_sqrt2 = 0.70710678118654752;

constexpr std::string_view source_with_k =
    "AISC Manual of Steel Construction, 15th ed. (legs, thickness, weight, area, k as published); root radius = k - "
    "thickness, the largest that a bar should have; toe radius derived from the published area";
constexpr std::string_view source_without_k =
    "AISC Manual of Steel Construction, 9th ed., from memory (legs, thickness, weight, area); radii unknown: root "
    "1/8 in is common practice, toe = root / sqrt 2 keeps the published area; measure the bar before it matters";

Section section_of(const Row& row) {
  const bool known = row.k_in > 0;
  const double root_in = known ? row.k_in - row.thickness_in : bar_root_in;
  const double toe_in = known ? row.toe_in : bar_root_in * inverse_sqrt2;
  return {.shape = SectionShape::angle,
          .designation = "L " + std::string(row.size) + " in",
          .leg_a_mm = row.leg_in * mm_per_in,
          .leg_b_mm = row.leg_in * mm_per_in,
          .thickness_mm = row.thickness_in * mm_per_in,
          .root_radius_mm = root_in * mm_per_in,
          .toe_radius_mm = toe_in * mm_per_in,
          .published_mass_kg_per_m = row.weight_lb_per_ft * kg_per_m_of_lb_per_ft,
          .published_area_mm2 = row.area_in2 * mm_per_in * mm_per_in,
          .source = std::string(known ? source_with_k : source_without_k)};
}

}  // namespace

void append_inch_angles(std::vector<Section>& sections) {
  for (const Row& row : rows) {
    sections.push_back(section_of(row));
  }
}

}  // namespace fitup::tables

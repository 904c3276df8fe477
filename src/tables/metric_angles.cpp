// The equal angles of EN 10056-1 up to 80 mm: legs, thickness, both radii, mass and area as published.
// Entry: append_metric_angles().
#include <fmt/format.h>

#include <string_view>

#include "tables/families.h"

namespace fitup::tables {
namespace {

struct Row {
  double leg_mm;
  double thickness_mm;
  double root_radius_mm;
  double toe_radius_mm;
  double mass_kg_per_m;
  double area_cm2;
};

// 70x70x8 has root 10 and toe 5 where its neighbours have 9 and 4.5: so published, and its area agrees with it.
constexpr Row rows[] = {
    {20, 3, 3.5, 1.75, 0.88, 1.12}, {25, 3, 3.5, 1.75, 1.12, 1.42}, {25, 4, 3.5, 1.75, 1.45, 1.85},
    {30, 3, 5, 2.5, 1.36, 1.74},    {30, 4, 5, 2.5, 1.78, 2.27},    {35, 4, 5, 2.5, 2.09, 2.67},
    {35, 5, 5, 2.5, 2.57, 3.28},    {40, 4, 6, 3, 2.42, 3.08},      {40, 5, 6, 3, 2.97, 3.79},
    {40, 6, 6, 3, 3.52, 4.48},      {45, 3, 7, 3.5, 2.09, 2.66},    {45, 4, 7, 3.5, 2.74, 3.49},
    {45, 4.5, 7, 3.5, 3.06, 3.9},   {45, 5, 7, 3.5, 3.38, 4.3},     {45, 6, 7, 3.5, 4, 5.09},
    {45, 7, 7, 3.5, 4.6, 5.86},     {50, 4, 7, 3.5, 3.06, 3.89},    {50, 5, 7, 3.5, 3.77, 4.8},
    {50, 6, 7, 3.5, 4.47, 5.69},    {50, 7, 7, 3.5, 5.15, 6.56},    {50, 8, 7, 3.5, 5.82, 7.41},
    {50, 9, 7, 3.5, 6.47, 8.24},    {55, 4, 8, 4, 3.38, 4.31},      {55, 5, 8, 4, 4.18, 5.32},
    {55, 6, 8, 4, 4.95, 6.31},      {60, 4, 8, 4, 3.7, 4.71},       {60, 5, 8, 4, 4.57, 5.82},
    {60, 6, 8, 4, 5.42, 6.91},      {60, 7, 8, 4, 6.26, 7.98},      {60, 8, 8, 4, 7.09, 9.03},
    {60, 10, 8, 4, 8.69, 11.1},     {63, 5, 9, 4.5, 4.82, 6.14},    {63, 6, 9, 4.5, 5.72, 7.29},
    {63, 6.5, 9, 4.5, 6.17, 7.85},  {65, 4, 9, 4.5, 4.02, 5.13},    {65, 5, 9, 4.5, 4.97, 6.34},
    {65, 6, 9, 4.5, 5.91, 7.53},    {65, 7, 9, 4.5, 6.83, 8.7},     {65, 8, 9, 4.5, 7.73, 9.85},
    {65, 9, 9, 4.5, 8.62, 11},      {65, 10, 9, 4.5, 9.49, 12.1},   {65, 11, 9, 4.5, 10.3, 13.2},
    {70, 5, 9, 4.5, 5.37, 6.84},    {70, 6, 9, 4.5, 6.38, 8.13},    {70, 7, 9, 4.5, 7.38, 9.4},
    {70, 8, 10, 5, 8.37, 10.7},     {70, 9, 9, 4.5, 9.32, 11.9},    {70, 10, 9, 4.5, 10.3, 13.1},
    {75, 4, 9, 4.5, 4.65, 5.93},    {75, 5, 9, 4.5, 5.76, 7.34},    {75, 6, 9, 4.5, 6.85, 8.73},
    {75, 7, 9, 4.5, 7.93, 10.1},    {75, 8, 9, 4.5, 8.99, 11.4},    {75, 9, 9, 4.5, 10, 12.8},
    {75, 10, 9, 4.5, 11.1, 14.1},   {80, 5, 10, 5, 6.17, 7.86},     {80, 6, 10, 5, 7.34, 9.35},
    {80, 7, 10, 5, 8.49, 10.8},     {80, 8, 10, 5, 9.63, 12.3},     {80, 9, 10, 5, 10.8, 13.7},
    {80, 10, 10, 5, 11.9, 15.1},
};

constexpr std::string_view source =
    "EN 10056-1 (values as published; exact geometry with these radii reproduces area and centroid)";
constexpr std::string_view source_large_toe =
    "EN 10056-1 (values as published; the toe radius is larger than the thickness and is limited to it in the outline)";

}  // namespace

void append_metric_angles(std::vector<Section>& sections) {
  for (const Row& row : rows) {
    sections.push_back({.shape = SectionShape::angle,
                        .designation = fmt::format("L {0:g}x{0:g}x{1:g}", row.leg_mm, row.thickness_mm),
                        .leg_a_mm = row.leg_mm,
                        .leg_b_mm = row.leg_mm,
                        .thickness_mm = row.thickness_mm,
                        .root_radius_mm = row.root_radius_mm,
                        .toe_radius_mm = row.toe_radius_mm,
                        .published_mass_kg_per_m = row.mass_kg_per_m,
                        .published_area_mm2 = row.area_cm2 * 100,
                        .source = std::string(row.toe_radius_mm > row.thickness_mm ? source_large_toe : source)});
  }
}

}  // namespace fitup::tables

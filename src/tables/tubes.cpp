// Square and rectangular tube, cold formed: sides, thickness, mass and area as published.
// Entry: append_tubes(), tube_corner_radius_mm().
#include <fmt/format.h>

#include <string_view>

#include "tables/families.h"

namespace fitup::tables {
namespace {

struct Row {
  double high_mm;
  double wide_mm;
  double thickness_mm;
  double mass_kg_per_m;
  double area_cm2;
};

constexpr Row rows[] = {
    {25, 25, 2, 1.36, 1.74},  {25, 25, 2.5, 1.64, 2.09}, {30, 30, 2, 1.68, 2.14},   {30, 30, 2.5, 2.03, 2.59},
    {30, 30, 3, 2.36, 3.01},  {40, 40, 2, 2.31, 2.94},   {40, 40, 2.5, 2.82, 3.59}, {40, 40, 3, 3.3, 4.21},
    {40, 40, 4, 4.2, 5.35},   {50, 50, 2.5, 3.6, 4.59},  {50, 50, 3, 4.25, 5.41},   {50, 50, 4, 5.45, 6.95},
    {50, 50, 5, 6.56, 8.36},  {60, 60, 3, 5.19, 6.61},   {60, 60, 4, 6.71, 8.55},   {60, 60, 5, 8.13, 10.4},
    {60, 60, 6, 9.45, 12},    {50, 25, 2, 2.15, 2.74},   {50, 25, 2.5, 2.62, 3.34}, {50, 25, 3, 3.07, 3.91},
    {50, 30, 2, 2.31, 2.94},  {50, 30, 2.5, 2.82, 3.59}, {50, 30, 3, 3.3, 4.21},    {50, 30, 4, 4.2, 5.35},
    {60, 40, 2.5, 3.6, 4.59}, {60, 40, 3, 4.25, 5.41},   {60, 40, 4, 5.45, 6.95},   {60, 40, 5, 6.56, 8.36},
    {70, 40, 3, 4.72, 6.01},  {70, 40, 4, 6.08, 7.75},   {70, 50, 3, 5.19, 6.61},   {70, 50, 4, 6.71, 8.55},
    {80, 40, 3, 5.19, 6.61},  {80, 40, 4, 6.71, 8.55},   {80, 40, 5, 8.13, 10.4},   {80, 60, 3, 6.13, 7.81},
    {80, 60, 4, 7.97, 10.1},  {80, 60, 5, 9.7, 12.4},    {100, 50, 3, 6.6, 8.41},   {100, 50, 4, 8.59, 10.9},
};

constexpr std::string_view source =
    "EN 10219-2 (values as reprinted in a public structural data set; the corner radii, from memory of the standard, "
    "reproduce mass and area)";

}  // namespace

double tube_corner_radius_mm(double thickness_mm) {
  if (thickness_mm <= 6) return 2 * thickness_mm;
  return (thickness_mm <= 10 ? 2.5 : 3) * thickness_mm;
}

void append_tubes(std::vector<Section>& sections) {
  for (const Row& row : rows) {
    sections.push_back({.shape = SectionShape::tube,
                        .designation = fmt::format("{} {:g}x{:g}x{:g}", row.high_mm == row.wide_mm ? "SHS" : "RHS",
                                                   row.high_mm, row.wide_mm, row.thickness_mm),
                        .leg_a_mm = row.high_mm,
                        .leg_b_mm = row.wide_mm,
                        .thickness_mm = row.thickness_mm,
                        .published_mass_kg_per_m = row.mass_kg_per_m,
                        .published_area_mm2 = row.area_cm2 * 100,
                        .source = std::string(source),
                        .corner_radius_mm = tube_corner_radius_mm(row.thickness_mm)});
  }
}

}  // namespace fitup::tables

// Unequal angles, metric and inch: legs, thickness, mass and area as published.
// Entry: append_unequal_angles(), append_inch_unequal_angles().
#include <fmt/format.h>

#include <string_view>

#include "tables/families.h"

namespace fitup::tables {
namespace {

struct MetricRow {
  double long_mm;
  double short_mm;
  double thickness_mm;
  double root_radius_mm;
  double mass_kg_per_m;
  double area_cm2;
};

// The toe radius is half the root radius throughout.
constexpr MetricRow metric_rows[] = {
    {30, 20, 3, 4, 1.12, 1.43},   {30, 20, 4, 4, 1.46, 1.86},   {40, 20, 4, 4, 1.77, 2.26},
    {40, 25, 4, 4, 1.93, 2.46},   {45, 30, 4, 4.5, 2.25, 2.87}, {50, 30, 5, 5, 2.96, 3.78},
    {60, 30, 5, 5, 3.36, 4.28},   {60, 40, 5, 6, 3.76, 4.79},   {60, 40, 6, 6, 4.46, 5.68},
    {65, 50, 5, 6, 4.35, 5.54},   {70, 50, 6, 7, 5.41, 6.89},   {75, 50, 6, 7, 5.65, 7.19},
    {75, 50, 8, 7, 7.39, 9.41},   {80, 40, 6, 7, 5.41, 6.89},   {80, 40, 8, 7, 7.07, 9.01},
    {80, 60, 7, 8, 7.36, 9.38},   {100, 50, 6, 8, 6.84, 8.71},  {100, 50, 8, 8, 8.97, 11.4},
    {100, 65, 7, 10, 8.77, 11.2}, {100, 65, 8, 10, 9.94, 12.7},
};

struct InchRow {
  std::string_view size;
  double long_in;
  double short_in;
  double thickness_in;
  double k_in;  // heel to the end of the root
  double toe_in;
  double weight_lb_per_ft;
  double area_in2;
};

// Thicknesses are the nominal fractions. Toe: the whole sixteenth that brings the area of the outline nearest to the
// published one.
constexpr InchRow inch_rows[] = {
    {"2-1/2x1-1/2x3/16", 2.5, 1.5, 0.1875, 0.4375, 0.125, 2.44, 0.724},
    {"2-1/2x1-1/2x1/4", 2.5, 1.5, 0.25, 0.5, 0.0625, 3.19, 0.947},
    {"2-1/2x2x3/16", 2.5, 2, 0.1875, 0.4375, 0.0625, 2.75, 0.818},
    {"2-1/2x2x1/4", 2.5, 2, 0.25, 0.5, 0.125, 3.62, 1.07},
    {"2-1/2x2x5/16", 2.5, 2, 0.3125, 0.5625, 0.0625, 4.5, 1.32},
    {"3x2x3/16", 3, 2, 0.1875, 0.5, 0.125, 3.07, 0.917},
    {"3x2x1/4", 3, 2, 0.25, 0.5625, 0.125, 4.1, 1.2},
    {"3x2x5/16", 3, 2, 0.3125, 0.625, 0.125, 5.0, 1.48},
    {"3x2x3/8", 3, 2, 0.375, 0.6875, 0.125, 5.9, 1.75},
    {"3x2-1/2x3/16", 3, 2.5, 0.1875, 0.5625, 0.1875, 3.39, 1.0},
    {"3x2-1/2x1/4", 3, 2.5, 0.25, 0.625, 0.25, 4.5, 1.32},
    {"3x2-1/2x5/16", 3, 2.5, 0.3125, 0.6875, 0.25, 5.6, 1.63},
    {"3x2-1/2x3/8", 3, 2.5, 0.375, 0.75, 0.25, 6.6, 1.93},
    {"3-1/2x2-1/2x1/4", 3.5, 2.5, 0.25, 0.625, 0.1875, 4.9, 1.45},
    {"3-1/2x2-1/2x5/16", 3.5, 2.5, 0.3125, 0.6875, 0.1875, 6.1, 1.79},
};

constexpr double mm_per_in = 25.4;
constexpr double kg_per_m_of_lb_per_ft = 0.45359237 / 0.3048;

constexpr std::string_view metric_source =
    "EN 10056-1 (values as published; exact geometry with these radii reproduces area and centroid)";
constexpr std::string_view inch_source =
    "AISC Manual of Steel Construction, 15th ed. (legs, thickness, weight, area, k as published); root radius = k - "
    "thickness, the largest that a bar should have; toe radius derived from the published area";

}  // namespace

void append_unequal_angles(std::vector<Section>& sections) {
  for (const MetricRow& row : metric_rows) {
    sections.push_back({.shape = SectionShape::angle,
                        .designation = fmt::format("L {:g}x{:g}x{:g}", row.long_mm, row.short_mm, row.thickness_mm),
                        .leg_a_mm = row.long_mm,
                        .leg_b_mm = row.short_mm,
                        .thickness_mm = row.thickness_mm,
                        .root_radius_mm = row.root_radius_mm,
                        .toe_radius_mm = row.root_radius_mm / 2,
                        .published_mass_kg_per_m = row.mass_kg_per_m,
                        .published_area_mm2 = row.area_cm2 * 100,
                        .source = std::string(metric_source)});
  }
}

void append_inch_unequal_angles(std::vector<Section>& sections) {
  for (const InchRow& row : inch_rows) {
    sections.push_back({.shape = SectionShape::angle,
                        .designation = "L " + std::string(row.size) + " in",
                        .leg_a_mm = row.long_in * mm_per_in,
                        .leg_b_mm = row.short_in * mm_per_in,
                        .thickness_mm = row.thickness_in * mm_per_in,
                        .root_radius_mm = (row.k_in - row.thickness_in) * mm_per_in,
                        .toe_radius_mm = row.toe_in * mm_per_in,
                        .published_mass_kg_per_m = row.weight_lb_per_ft * kg_per_m_of_lb_per_ft,
                        .published_area_mm2 = row.area_in2 * mm_per_in * mm_per_in,
                        .source = std::string(inch_source)});
  }
}

}  // namespace fitup::tables

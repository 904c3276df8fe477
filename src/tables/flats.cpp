// Flat bars, metric and inch: the sizes that are commonly kept, masses by the convention of the bar standards.
// Entry: append_metric_flats(), append_inch_flats().
#include <fmt/format.h>

#include <array>
#include <string_view>

#include "tables/families.h"

namespace fitup::tables {
namespace {

constexpr double kg_per_m_per_mm2 = 0.00785;  // 7850 kg/m3
constexpr double mm_per_in = 25.4;

constexpr std::string_view metric_source =
    "EN 10058 (form); sizes: common practice; mass = width x thickness x 7850 kg/m3";
constexpr std::string_view inch_source =
    "ASTM A6 (form); sizes: common practice; mass = width x thickness x 7850 kg/m3 (490 lb/ft3)";

struct InchSize {
  std::string_view text;
  double inches;
};

constexpr std::array metric_widths{20.0, 25.0, 30.0, 40.0, 50.0, 60.0, 80.0, 100.0};
constexpr std::array metric_thicknesses{3.0, 4.0, 5.0, 6.0, 8.0, 10.0, 12.0};
constexpr std::array inch_widths{InchSize{"3/4", 0.75},  InchSize{"1", 1}, InchSize{"1-1/4", 1.25},
                                 InchSize{"1-1/2", 1.5}, InchSize{"2", 2}, InchSize{"2-1/2", 2.5},
                                 InchSize{"3", 3},       InchSize{"4", 4}};
constexpr std::array inch_thicknesses{InchSize{"1/8", 0.125}, InchSize{"3/16", 0.1875}, InchSize{"1/4", 0.25},
                                      InchSize{"3/8", 0.375}, InchSize{"1/2", 0.5}};

Section flat(std::string designation, double width_mm, double thickness_mm, std::string_view source) {
  return {.shape = SectionShape::flat,
          .designation = std::move(designation),
          .leg_a_mm = width_mm,
          .thickness_mm = thickness_mm,
          .published_mass_kg_per_m = width_mm * thickness_mm * kg_per_m_per_mm2,
          .source = std::string(source)};
}

}  // namespace

void append_metric_flats(std::vector<Section>& sections) {
  for (const double width : metric_widths) {
    for (const double thickness : metric_thicknesses) {
      if (2 * thickness < width) {  // nearer to square is not commonly kept
        sections.push_back(flat(fmt::format("{:g}x{:g}", width, thickness), width, thickness, metric_source));
      }
    }
  }
}

void append_inch_flats(std::vector<Section>& sections) {
  for (const InchSize& width : inch_widths) {
    for (const InchSize& thickness : inch_thicknesses) {
      if (2 * thickness.inches <= width.inches) {
        sections.push_back(flat(fmt::format("{}x{} in", width.text, thickness.text), width.inches * mm_per_in,
                                thickness.inches * mm_per_in, inch_source));
      }
    }
  }
}

}  // namespace fitup::tables

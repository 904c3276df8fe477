// Inputs, sections, threads and sheet of the calculation paper.
// Entry: input_table, section_table, thread_table, sheet_table.

#include "bench/calculation_inputs.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace fitup::bench {
namespace {

std::string four_digits(double value) {
  if (value == 0) return "0";
  const int digits = static_cast<int>(std::floor(std::log10(std::abs(value)))) + 1;
  const double step = std::pow(10, digits - 4);
  return fmt::format("{:.{}f}", std::round(value / step) * step, std::clamp(4 - digits, 0, 9));
}

/// A length to that power to four digits: a second moment is a length to the fourth.
std::string power(double value, int exponent, const output::PaperUnits& units) {
  constexpr double mm_per_inch = 25.4;
  const double own = units.length() == "in" ? value / std::pow(mm_per_inch, exponent) : value;
  return fmt::format("{} {}{}", four_digits(own), units.length(), exponent);
}

std::string length(double mm, const output::PaperUnits& units) {
  return fmt::format("{} {}", units.length(mm), units.length());
}

Row row_of(const CalculationSection& s, const output::PaperUnits& units) {
  const auto p = [&units](double value, int exponent) { return power(value, exponent, units); };
  const bool symmetric = std::abs(s.iyz_mm4) < 1e-6 * s.iy_mm4;
  Row row{{units.sentence(s.what), p(s.area_mm2, 2), p(s.iy_mm4, 4), p(s.iz_mm4, 4), symmetric ? "0" : p(s.iyz_mm4, 4)}};
  row.below.push_back(
      {"principal", fmt::format("I_u {}, I_v {}; centroid {} along y and {} along z", p(s.iu_mm4, 4), p(s.iv_mm4, 4),
                                length(s.y_mm, units), length(s.z_mm, units))});
  row.below.push_back({"shear", fmt::format("J {}, W_t {}, A_y {}, A_z {}; {}", p(s.j_mm4, 4), p(s.torsion_mm3, 3),
                                            p(s.shear_y_mm2, 2), p(s.shear_z_mm2, 2), s.j_source)});
  return row;
}

std::string carried(const CalculationThread& t) {
  constexpr double gamma_m2 = 1.25;
  const double each = t.tensile_mpa * t.stress_area_mm2 / gamma_m2;
  return fmt::format("F_t,Rd {:.0f} N, F_v,Rd {:.0f} N", 0.9 * each, *t.alpha_v * each);
}

Row row_of(const CalculationThread& t, const output::PaperUnits& units) {
  Row row{{t.what, length(t.major_mm, units), length(t.pitch_mm, units), length(t.pitch_diameter_mm, units),
           power(t.stress_area_mm2, 2, units), units.measure(t.tensile_mpa, "MPa"),
           t.alpha_v ? fmt::format("{}", *t.alpha_v) : "none"}};
  if (t.alpha_v) row.below.push_back({"carries", units.sentence(carried(t))});
  return row;
}

}  // namespace

Table input_table(const Calculation& calculation, const output::PaperUnits& units) {
  Table table{{{"input"}, {"value"}, {"source"}}, {}};
  for (const CalculationInput& in : calculation.inputs) {
    table.rows.push_back(
        {{units.sentence(in.what), units.sentence(in.value), in.source.empty() ? "missing" : in.source}});
  }
  return table;
}

Table section_table(const Calculation& calculation, const output::PaperUnits& units) {
  constexpr auto right = Anchor::right;
  Table table{{{"section"}, {"A", right}, {"I_y", right}, {"I_z", right}, {"I_yz", right}}, {}};
  for (const CalculationSection& s : calculation.sections) table.rows.push_back(row_of(s, units));
  return table;
}

Table thread_table(const Calculation& calculation, const output::PaperUnits& units) {
  constexpr auto right = Anchor::right;
  Table table{
      {{"thread"}, {"d", right}, {"P", right}, {"d_2", right}, {"A_s", right}, {"f_ub", right}, {"alpha_v", right}}, {}};
  std::string_view said;
  for (const CalculationThread& t : calculation.threads) {
    table.rows.push_back(row_of(t, units));
    if (t.source != said) table.rows.back().below.push_back({"by", units.sentence(t.source)});
    said = t.source;
  }
  return table;
}

Table sheet_table(const Calculation& calculation, const output::PaperUnits& units) {
  constexpr auto right = Anchor::right;
  Table table{{{"sheet"}, {"t", right}, {"t^2 / 6", right}, {"t^2 / 4", right}}, {}};
  for (const CalculationSheet& s : calculation.sheets) {
    const double square = s.thickness_mm * s.thickness_mm;
    table.rows.push_back({{s.what, length(s.thickness_mm, units), power(square / 6, 2, units),
                           power(square / 4, 2, units)}});
  }
  return table;
}

}  // namespace fitup::bench

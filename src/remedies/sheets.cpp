// The shelf of the spec's shop, and a sheet's thickness in words.
// Entry: sheets_of, thickness_words.
#include "remedies/sheets.h"

#include <fmt/format.h>

#include <cmath>

#include "fitup/sheet_fit.h"
#include "fitup/tables.h"

namespace fitup::remedies {

namespace {

constexpr double mm_per_in = 25.4;

bool counts(double value, double parts) { return std::abs(value * parts - std::round(value * parts)) < 1e-6; }

}  // namespace

std::vector<double> sheets_of(const Spec& spec, const std::string& material) {
  return tables::on_shelf_mm(material, spec.cutter.rules, spec.units);
}

std::string thickness_words(const Spec& spec, const std::string& material, double mm) {
  const Material* known = tables::find_material(material);
  if (known == nullptr || known->steel) {
    for (const SheetGauge& g : tables::sheet_gauges()) {
      if (std::abs(g.steel_mm - mm) < 1e-6) return fmt::format("{} ga", g.number);
    }
  }
  const bool metric = spec.units == UnitSystem::mm_kg && counts(mm, 20);
  if (!metric && counts(mm / mm_per_in, 1e4)) return fmt::format("{:.6g} in", mm / mm_per_in);
  return fmt::format("{:.6g} mm", mm);
}

}  // namespace fitup::remedies

// Usual thicknesses of sheets, the tolerances of their thickness and of thermal cuts, and what fits on one.
// Entry: sheet_thicker_by_mm, cut_permits_mm, usual_metric_sheets_mm, usual_inch_sheets_mm, on_shelf_mm, sheet_fault,
// longest_piece_mm.
#include "fitup/sheet_fit.h"

#include <algorithm>
#include <array>
#include <cstddef>

#include "fitup/tables.h"

namespace fitup::tables {

namespace {

struct Row {
  double up_to_mm;
  double permits_mm;
};

// EN 10051, category A, width up to 1200 mm: hot-rolled sheet, plus or minus.
constexpr std::array<Row, 9> hot_rolled{
    {{2, 0.17}, {2.5, 0.18}, {3, 0.20}, {4, 0.22}, {5, 0.24}, {6, 0.26}, {8, 0.29}, {10, 0.32}, {12.5, 0.35}}};
// EN 485-4, wrought alloys of sheets up to 1500 mm wide, plus or minus: from memory, rounded up.
constexpr std::array<Row, 9> aluminium{
    {{2, 0.12}, {2.5, 0.14}, {3, 0.16}, {4, 0.20}, {5, 0.24}, {6, 0.28}, {8, 0.36}, {10, 0.44}, {12.5, 0.52}}};
// ISO 9013:2017, tolerance class 1, nominal sizes over 3 to 10 mm, by the thickness that is cut.
constexpr std::array<Row, 7> cut_class_1{
    {{1, 0.10}, {3.15, 0.15}, {6.3, 0.20}, {10, 0.25}, {15, 0.30}, {20, 0.40}, {25, 0.45}}};
// Likewise, tolerance class 2.
constexpr std::array<Row, 5> cut_class_2{{{1, 0.60}, {3.15, 0.60}, {6.3, 0.80}, {10, 1.00}, {25, 1.80}}};

// Common practice: what dealers list.
constexpr std::array<double, 18> metric_mm{0.8, 1, 1.25, 1.5, 2, 2.5, 3, 4, 5, 6, 8, 10, 12, 15, 20, 25, 30, 40};
constexpr std::array<double, 11> steel_in{0.125, 0.1875, 0.25, 0.3125, 0.375, 0.5, 0.625, 0.75, 1, 1.25, 1.5};
constexpr std::array<double, 14> aluminium_in{0.032, 0.04, 0.05,   0.063, 0.08, 0.09,  0.1,
                                              0.125, 0.16, 0.1875, 0.19,  0.25, 0.375, 0.5};
constexpr int thickest_gauge = 7;
constexpr int thinnest_gauge = 22;
constexpr double mm_per_in = 25.4;

constexpr double same_mm = 1e-9;

/// Of a sheet as long and wide as that, what its margin leaves.
std::array<double, 2> room_of(const std::array<double, 2>& sheet_mm, const CutRules& rules) {
  return {sheet_mm[0] - 2 * rules.sheet_margin_mm, sheet_mm[1] - 2 * rules.sheet_margin_mm};
}

template <std::size_t N>
double permitted_mm(const std::array<Row, N>& rows, double size_mm) {
  for (const Row& row : rows) {
    if (size_mm <= row.up_to_mm) return row.permits_mm;
  }
  return rows.back().permits_mm * size_mm / rows.back().up_to_mm;
}

}  // namespace

double sheet_thicker_by_mm(double thickness_mm, bool steel) {
  return steel ? permitted_mm(hot_rolled, thickness_mm) : permitted_mm(aluminium, thickness_mm);
}

double cut_permits_mm(double thickness_mm, CutClass tolerance) {
  return tolerance == CutClass::one ? permitted_mm(cut_class_1, thickness_mm) : permitted_mm(cut_class_2, thickness_mm);
}

std::vector<double> usual_metric_sheets_mm() { return {metric_mm.begin(), metric_mm.end()}; }

std::vector<double> usual_inch_sheets_mm(bool steel) {
  std::vector<double> all;
  if (steel) {
    for (const double in : steel_in) all.push_back(in * mm_per_in);
    for (const SheetGauge& g : sheet_gauges()) {
      if (g.number >= thickest_gauge && g.number <= thinnest_gauge) all.push_back(g.steel_mm);
    }
  } else {
    for (const double in : aluminium_in) all.push_back(in * mm_per_in);
  }
  std::sort(all.begin(), all.end());
  return all;
}

std::vector<double> on_shelf_mm(std::string_view material, const CutRules& rules) {
  for (const OnShelf& of : rules.on_shelf) {
    if (of.material == material) return of.thicknesses_mm;
  }
  std::vector<double> all;
  if (rules.shelf != ShelfKind::gauge) all = usual_metric_sheets_mm();
  if (rules.shelf != ShelfKind::metric) {
    const Material* known = find_material(material);
    const std::vector<double> inch = usual_inch_sheets_mm(known == nullptr || known->steel);
    all.insert(all.end(), inch.begin(), inch.end());
  }
  std::sort(all.begin(), all.end());
  return all;
}

std::vector<double> on_shelf_mm(std::string_view material, CutRules rules, UnitSystem of_both) {
  const bool metric = of_both == UnitSystem::mm_kg;
  if (rules.shelf == ShelfKind::both) rules.shelf = metric ? ShelfKind::metric : ShelfKind::gauge;
  return on_shelf_mm(material, rules);
}

std::optional<SheetFault> sheet_fault(Vec2 size_mm, const CutRules& rules) {
  const std::array<double, 2> plate{std::max(size_mm.x, size_mm.y), std::min(size_mm.x, size_mm.y)};
  std::optional<SheetFault> nearest;
  for (const auto& sheet : rules.sheets_mm) {
    const auto room = room_of(sheet, rules);
    const std::size_t side = plate[0] - room[0] >= plate[1] - room[1] ? 0 : 1;
    if (plate[side] <= room[side] + same_mm) return std::nullopt;
    const SheetFault fault{plate[side], room[side], sheet};
    if (!nearest || fault.size_mm - fault.room_mm < nearest->size_mm - nearest->room_mm) nearest = fault;
  }
  return nearest;
}

double longest_piece_mm(double width_mm, const CutRules& rules) {
  double longest = 0;
  for (const auto& sheet : rules.sheets_mm) {
    const auto room = room_of(sheet, rules);
    for (const std::size_t side : {0U, 1U}) {
      if (width_mm <= room[1 - side] + same_mm) longest = std::max(longest, room[side]);
    }
  }
  return longest;
}

}  // namespace fitup::tables

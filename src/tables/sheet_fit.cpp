// Tolerances of sheets' thickness and of thermal cuts.
// Entry: sheet_thicker_by_mm, cut_permits_mm.
#include "fitup/sheet_fit.h"

#include <array>
#include <cstddef>

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

double cut_permits_mm(double thickness_mm) { return permitted_mm(cut_class_1, thickness_mm); }

}  // namespace fitup::tables

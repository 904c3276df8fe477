#pragma once
// Sheets as they are bought and cut: usual thicknesses, and what thickness and cut may be off by.

#include <array>
#include <optional>
#include <string_view>
#include <vector>

#include "fitup/cut_rules.h"
#include "fitup/geometry.h"
#include "fitup/quantity.h"

namespace fitup::tables {

/// How much thicker than its name a sheet of steel or of an aluminium alloy may be.
[[nodiscard]] double sheet_thicker_by_mm(double thickness_mm, bool steel);

/// How far a thermal cut of 3 to 10 mm in a sheet of that thickness may be off, either way.
[[nodiscard]] double cut_permits_mm(double thickness_mm, CutClass tolerance = CutClass::one);

/// Thicknesses that sheet is stocked in (common practice), ascending.
[[nodiscard]] std::vector<double> usual_metric_sheets_mm();
/// Gauges from 7 to 22 and fractions of an inch of steel, decimals of an inch of aluminium alloys.
[[nodiscard]] std::vector<double> usual_inch_sheets_mm(bool steel);

/// What the shop has of a material, ascending: what its rules say, else what is usual.
[[nodiscard]] std::vector<double> on_shelf_mm(std::string_view material, const CutRules& rules);
/// Likewise, but of a shop that has both kinds only the one of these units.
[[nodiscard]] std::vector<double> on_shelf_mm(std::string_view material, CutRules rules, UnitSystem of_both);

/// How a plate that fits on no sheet comes nearest to one.
struct SheetFault {
  double size_mm = 0;  // the side that is too long
  double room_mm = 0;  // what the sheet has for it
  std::array<double, 2> sheet_mm{};
};
/// Square to the sheet's edges, either way round; none: it fits on one of them.
[[nodiscard]] std::optional<SheetFault> sheet_fault(Vec2 size_mm, const CutRules& rules);

/// How long a piece may be that is as wide as that, to fit on one of the sheets; 0: none of them is as wide.
[[nodiscard]] double longest_piece_mm(double width_mm, const CutRules& rules);

}  // namespace fitup::tables

#pragma once
// Sheets as they are bought and cut: usual thicknesses, and what thickness and cut may be off by.

#include <vector>

#include "fitup/cut_rules.h"

namespace fitup::tables {

/// How much thicker than its name a sheet of steel or of an aluminium alloy may be.
[[nodiscard]] double sheet_thicker_by_mm(double thickness_mm, bool steel);

/// How far a thermal cut of 3 to 10 mm in a sheet of that thickness may be off, either way.
[[nodiscard]] double cut_permits_mm(double thickness_mm, CutClass tolerance = CutClass::one);

/// Thicknesses that sheet is stocked in (common practice), ascending.
[[nodiscard]] std::vector<double> usual_metric_sheets_mm();
/// Gauges from 7 to 22 and fractions of an inch of steel, decimals of an inch of aluminium alloys.
[[nodiscard]] std::vector<double> usual_inch_sheets_mm(bool steel);

}  // namespace fitup::tables

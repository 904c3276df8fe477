#pragma once
// What flat parts that are set into each other may be off by: thickness of the sheet, place of the cut.

namespace fitup::tables {

/// How much thicker than its name a sheet of steel or of an aluminium alloy may be.
[[nodiscard]] double sheet_thicker_by_mm(double thickness_mm, bool steel);

/// How far a thermal cut of 3 to 10 mm in a sheet of that thickness may be off, either way.
[[nodiscard]] double cut_permits_mm(double thickness_mm);

}  // namespace fitup::tables

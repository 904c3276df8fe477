#pragma once
// What the calculation paper's formulas are reckoned with, as tables in the paper's units.

#include "bench/flow.h"
#include "fitup/calculation.h"
#include "output/units.h"

namespace fitup::bench {

[[nodiscard]] Table input_table(const Calculation& calculation, const output::PaperUnits& units);
[[nodiscard]] Table section_table(const Calculation& calculation, const output::PaperUnits& units);
[[nodiscard]] Table thread_table(const Calculation& calculation, const output::PaperUnits& units);
[[nodiscard]] Table sheet_table(const Calculation& calculation, const output::PaperUnits& units);

}  // namespace fitup::bench

#pragma once
// What the calculation paper lists that its formulas are reckoned with: sections, threads, sheet.

#include <vector>

#include "fitup/calculation.h"
#include "loads/frame_model.h"

namespace fitup::loads {

/// Of the members of a model, each designation once, in the order of their parts.
[[nodiscard]] std::vector<CalculationSection> sections_in(const Plan& plan, const FrameModel& model);
/// Of feet, lugs and items held through holes, and of the eyes.
[[nodiscard]] std::vector<CalculationThread> threads_in(const Plan& plan);
/// Of flat parts, each thickness and material once.
[[nodiscard]] std::vector<CalculationSheet> sheets_in(const Plan& plan);

}  // namespace fitup::loads

#pragma once
// Strength class and finish of bought screws, nuts and washers, for the lists.

#include <string>

#include "fitup/paper.h"
#include "fitup/plan.h"

namespace fitup::output {

/// "class 8, zinc plated"; empty for what has none: glands, eyes, items. Screws, nuts and washers as `bench.hardware`
/// says, bolts of feet and lugs of the class that `loads.bolts` reckons with, rods without a class of their own too.
[[nodiscard]] std::string grade_words(const Plan& plan, const Part& part, Hardware hardware);

}  // namespace fitup::output

#pragma once
// The list of masses: every part, box and the whole, with where each figure comes from.

#include <vector>

#include "fitup/job.h"
#include "fitup/plan.h"
#include "output/csv.h"

namespace fitup::output {

/// One row for each part of each box and each allowance, then the totals of each box and of the whole in each state.
/// The first row is the heading.
[[nodiscard]] std::vector<CsvRow> weight_rows(const Plan& plan, const JobInfo& info);

}  // namespace fitup::output

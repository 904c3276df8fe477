#pragma once
// The list for the welder: every seam, where it lies, what is laid and what is left free.

#include <string>
#include <vector>

#include "fitup/job.h"
#include "fitup/plan.h"
#include "fitup/seams.h"
#include "output/csv.h"

namespace fitup::output {

/// "outside left", "inside front, rising up", "outside, all round, up": where a seam is laid.
[[nodiscard]] std::string seam_side_words(const Plan& plan, const Seam& seam);

/// One row for each seam as listed_seams has them, with what is welded of it, by joint and place; then joints whose seams were not worked out;
/// then what is laid, ground flush and left free in all, and the weld metal as an allowance. The first row is the
/// heading.
[[nodiscard]] std::vector<CsvRow> weld_rows(const Plan& plan, const JobInfo& info);

}  // namespace fitup::output

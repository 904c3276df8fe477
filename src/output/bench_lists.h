#pragma once
// What the bench needs besides flat parts: what is sawn, what is bought, and what the items are.

#include <vector>

#include "fitup/job.h"
#include "fitup/plan.h"
#include "output/csv.h"

namespace fitup::output {

/// One row for each distinct sawn part, by mark: section, length, both ends, holes. The first row is the heading.
[[nodiscard]] std::vector<CsvRow> cut_rows(const Plan& plan, const Model& model, const JobInfo& info);

/// Hardware by mark, lifting eyes by thread, then the items, which stand in for what the user has. The first row is
/// the heading.
[[nodiscard]] std::vector<CsvRow> bought_rows(const Plan& plan, const Model& model, const JobInfo& info);

/// The job's own columns: name, revision, short spec hash.
void add_job(CsvRow& row, const JobInfo& info);

}  // namespace fitup::output

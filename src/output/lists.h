#pragma once
// The lists that go out with the files: what to cut, what to print. RFC 4180, each heading with its unit.

#include "fitup/job.h"
#include "fitup/plan.h"
#include "output/csv.h"
#include "output/units.h"

namespace fitup::output {

/// One row for each distinct cut part, by material, thickness and mark; the first row is the heading.
[[nodiscard]] std::vector<CsvRow> order_rows(const Plan& plan, const JobInfo& info);

/// One row for each distinct printed part, by mark; the first row is the heading.
[[nodiscard]] std::vector<CsvRow> print_rows(const Plan& plan, const Model& model, const JobInfo& info);

/// What is done after cutting: "mark 2 centres, drill 3.3, tap M4"; several kinds joined by "; ".
[[nodiscard]] std::string work_after_cutting(const Flat& flat, const PaperUnits& units);

}  // namespace fitup::output

#pragma once
// The lists that go out with the files: what to cut, what to print. RFC 4180, each heading with its unit.

#include <initializer_list>
#include <set>

#include "fitup/job.h"
#include "fitup/plan.h"
#include "output/csv.h"
#include "output/units.h"

namespace fitup::output {

/// Whether files of one of these groups are asked for; `only` empty: all are.
[[nodiscard]] bool asked_for(const std::set<FileGroup>& only, std::initializer_list<FileGroup> groups);

/// The groups with which each list is written.
inline constexpr std::initializer_list<FileGroup> with_order_list{FileGroup::dxf, FileGroup::lists};
inline constexpr std::initializer_list<FileGroup> with_print_list{FileGroup::stl, FileGroup::threemf, FileGroup::lists};

/// One row for each distinct cut part, by material, thickness and mark; the first row is the heading. "file" is empty
/// where `only` leaves the flat files out.
[[nodiscard]] std::vector<CsvRow> order_rows(const Plan& plan, const JobInfo& info,
                                             const std::set<FileGroup>& only = {});

/// One row for each distinct printed part, by mark; the first row is the heading. "file" is the STL file, "3MF file"
/// the other, each empty where `only` leaves it out.
[[nodiscard]] std::vector<CsvRow> print_rows(const Plan& plan, const Model& model, const JobInfo& info,
                                             const std::set<FileGroup>& only = {});

/// What is done after cutting: "mark 2 centres, drill 3.3, tap M4"; several kinds joined by "; ".
[[nodiscard]] std::string work_after_cutting(const Flat& flat, const PaperUnits& units);

}  // namespace fitup::output

#pragma once
// Findings as files: JSON for programs, aligned text for people.

#include <set>
#include <string>
#include <vector>

#include "fitup/job.h"
#include "output/units.h"

namespace fitup::output {

/// "box.main.clearance.back = 38 mm would pass", and what would then be marginal.
[[nodiscard]] std::string remedy_text(const Remedy& remedy);

/// A heading, then a line for each measurement that breaks something when it is a little off; nothing where none does.
[[nodiscard]] std::vector<std::string> delicate_lines(const Findings& findings, const PaperUnits& units);

/// `written_anyway`: what is cut, printed or drilled from is in the folder though a check failed.
/// `withheld`: it is not, because a check failed.
enum class Release { complete, withheld, written_anyway };

/// Whatever the files are limited to: each page of a job that fails says where to read why.
[[nodiscard]] bool has_findings_page(const std::set<FileGroup>& only, Release release);
[[nodiscard]] std::string findings_json_file(const Findings& findings, const JobInfo& info);
[[nodiscard]] std::string findings_text_file(const Findings& findings, const JobInfo& info, Release release);

/// The usual cautions: what the program does not judge and who does.
[[nodiscard]] std::string cautions();

}  // namespace fitup::output

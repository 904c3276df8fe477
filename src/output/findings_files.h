#pragma once
// Findings as files: JSON for programs, aligned text for people.

#include <string>

#include "fitup/job.h"

namespace fitup::output {

/// "box.main.clearance.back = 38 mm would pass", and what would then be marginal.
[[nodiscard]] std::string remedy_text(const Remedy& remedy);

/// `written_anyway`: what is cut, printed or drilled from is in the folder though a check failed.
/// `withheld`: it is not, because a check failed.
enum class Release { complete, withheld, written_anyway };

[[nodiscard]] std::string findings_json_file(const Findings& findings, const JobInfo& info);
[[nodiscard]] std::string findings_text_file(const Findings& findings, const JobInfo& info, Release release);

/// The usual cautions: what the program does not judge and who does.
[[nodiscard]] std::string cautions();

}  // namespace fitup::output

#pragma once
// What a file says about the job that it belongs to, so that paper of one revision never meets plates of another.

#include <string>
#include <string_view>

#include "fitup/job.h"
#include "fitup/plan.h"
#include "output/findings_files.h"

namespace fitup::output {

[[nodiscard]] Release release_of(const Findings& findings, const JobOptions& options);

/// "Front battery box, revision A, spec 9bbf07811a93": stands in the header of each STEP file.
[[nodiscard]] std::string step_description(const JobInfo& info);

/// What an STL's header says after "fitup ".
[[nodiscard]] std::string stl_title(const Part& part, const JobInfo& info);

/// "2 CHECKS FAIL: see checks/findings.txt": on each page and picture; empty where none does.
[[nodiscard]] std::string failing_words(const Findings& findings);

/// A further line on each flat part, or empty.
[[nodiscard]] std::string_view flat_warning(Release release);

}  // namespace fitup::output

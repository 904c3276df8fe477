#pragma once
// A picture of each failed and marginal finding: the two parts cut through the place, near and among what surrounds
// them, where in the whole that is, and what was found in words.

#include <string>
#include <vector>

#include "fitup/job.h"

namespace fitup::output {

/// "checks/03-overlap.svg" for what fails or is marginal, counted worst first; empty for others. Index: of
/// findings.all.
[[nodiscard]] std::vector<std::string> picture_paths(const Findings& findings);

/// The pictures of these findings, in the order of their paths. SVG; from the plan alone, by its prisms. Empty where
/// nothing fails or is marginal.
[[nodiscard]] std::vector<JobFile> finding_pictures(const Plan& plan, const Findings& findings, const JobInfo& info);

}  // namespace fitup::output

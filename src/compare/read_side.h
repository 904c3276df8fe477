#pragma once
// A side of a comparison, from a plan or from a job folder.

#include <filesystem>
#include <string>

#include "compare/comparison.h"
#include "fitup/job.h"
#include "fitup/plan.h"
#include "fitup/result.h"

namespace fitup::compare {

[[nodiscard]] Side side_of(const Plan& plan, const JobInfo& info, std::string path);

/// What a job folder's job.json says, once every file that it lists is found as it was written. Failure: file, where
/// there is none, where it is damaged, of an earlier version or a list over several jobs, or where a file is missing or
/// was changed.
[[nodiscard]] Result<Side> read_job_folder(const std::filesystem::path& folder);

}  // namespace fitup::compare

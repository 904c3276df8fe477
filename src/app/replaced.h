#pragma once
// What one make does to the job folder that stood there before, in words.

#include <optional>
#include <set>
#include <string>
#include <vector>

#include "app/request.h"
#include "fitup/job.h"

namespace fitup::app {

/// One line on which revision gave way to which, and one on what can no longer be cut, printed or drilled from.
/// Empty where nothing stood there.
[[nodiscard]] std::string replaced_words(const std::optional<FolderJob>& before, const JobInfo& now,
                                         const std::vector<JobFile>& files, bool check_failed,
                                         const MakeRequest& request);

/// "step, dxf"
[[nodiscard]] std::string group_words(const std::set<FileGroup>& groups);

}  // namespace fitup::app

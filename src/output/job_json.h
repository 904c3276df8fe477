#pragma once
// job.json: which program wrote the folder from which spec, and every file with its size and hash.

#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "fitup/job.h"
#include "output/findings_files.h"
#include "output/job_summary.h"
#include "output/totals.h"

namespace fitup::output {

/// `only`: the groups that were asked for, empty for all. `summary`: of one job, none over several.
[[nodiscard]] std::string job_json(const std::vector<JobFile>& files, const JobInfo& info, Release release,
                                   const std::set<FileGroup>& only, const JobSizes& sizes,
                                   const JobSummary* summary = nullptr);

/// What `fabrication_files` says: "complete", "limited to step, dxf", "withheld: a check fails", ...
[[nodiscard]] std::string fabrication_words(Release release, const std::set<FileGroup>& only);

struct ListedFile {
  std::string path;
  std::size_t size = 0;
  std::string sha256;
};

struct JobList {
  JobInfo info;  // what is absent is empty
  std::string fabrication_files;
  JobSizes sizes;
  bool has_parts = false;             // a list of them, be it whole or damaged
  std::optional<JobSummary> summary;  // nothing where there is none that can be read
  std::vector<ListedFile> files;
};

/// What a job.json says; nothing if the text is not a job.json of this program.
[[nodiscard]] std::optional<JobList> read_job_json(std::string_view text);

}  // namespace fitup::output

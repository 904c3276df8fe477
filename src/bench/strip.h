#pragma once
// What stands on every page: frame, and a strip with the job, its revision and spec hash, the paper's name and the
// page.

#include "bench/type.h"
#include "fitup/job.h"

namespace fitup::bench {

/// The height of the strip at the foot of every page of such a paper.
[[nodiscard]] double strip_height_mm(const JobInfo& info, const std::string& paper_name, const Type& type,
                                     PaperFormat format, bool landscape);

/// Frames and strips on all pages, once it is known how many there are.
void add_strips(Paper& paper, const JobInfo& info, const Type& type);

}  // namespace fitup::bench

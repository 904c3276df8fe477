#pragma once
// A paper as a PDF file.

#include <string>

#include "bench/type.h"
#include "fitup/job.h"

namespace fitup::bench {

/// Vector PDF 1.4 at true size; name, revision and spec of the job in its properties, the job's time as its date: same
/// paper, same bytes.
[[nodiscard]] Result<std::string> write_pdf(const Paper& paper, const JobInfo& info, const Type& type);

}  // namespace fitup::bench

#pragma once
// The calculation paper: what was reckoned, from what, by which formula, with what result; for the person who signs.

#include "bench/type.h"
#include "fitup/findings.h"
#include "fitup/job.h"

namespace fitup::bench {

[[nodiscard]] Paper calculation_paper(const Plan& plan, const Findings& findings, const JobInfo& info,
                                      const Type& type);

}  // namespace fitup::bench

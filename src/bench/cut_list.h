#pragma once
// The cut list as pages: what is sawn and drilled, with boxes to tick; rods with their nuts; what is bought.

#include "bench/type.h"
#include "fitup/job.h"
#include "fitup/plan.h"

namespace fitup::bench {

[[nodiscard]] Paper cut_list_paper(const Plan& plan, const Model& model, const JobInfo& info, const Type& type);

}  // namespace fitup::bench

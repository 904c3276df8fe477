#pragma once
// The assembly and weld sheet: numbered steps with a picture, parts, seams, torques, cautions, boxes to tick.

#include "bench/type.h"
#include "fitup/job.h"
#include "fitup/model.h"
#include "fitup/plan.h"

namespace fitup::bench {

[[nodiscard]] Result<Paper> assembly_paper(const Plan& plan, const Model& model, const JobInfo& info, const Type& type);

}  // namespace fitup::bench

#pragma once
// One sheet a part: views to scale, dimensions that locate each feature once, material, count, mass, tolerances. Then
// the assembly: exploded, with piece marks and a parts list, and sections where covers and bosses sit.

#include "bench/feature_rows.h"
#include "bench/type.h"
#include "fitup/job.h"
#include "fitup/model.h"
#include "fitup/plan.h"

namespace fitup::bench {

[[nodiscard]] Result<Paper> drawings_paper(const Plan& plan, const Model& model, const JobInfo& info, const Type& type);

}  // namespace fitup::bench

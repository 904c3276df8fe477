#pragma once
// The sheets of the whole: three views, exploded with piece marks, parts list, sections where covers and bosses sit.

#include "bench/flow.h"
#include "bench/type.h"
#include "fitup/job.h"
#include "fitup/model.h"
#include "fitup/plan.h"

namespace fitup::bench {

[[nodiscard]] Status add_exploded_sheet(Paper& paper, const Plan& plan, const Model& model, const JobInfo& info,
                                        const Type& type);
/// The parts list, and after it the sections.
void add_parts_list(Flow& flow, const Plan& plan, const JobInfo& info);
void add_sections(Flow& flow, const Plan& plan, const JobInfo& info, const Type& type);
/// Front, from above and from a side, with the overall sizes.
[[nodiscard]] Status add_whole_sheet(Paper& paper, const Plan& plan, const Model& model, const JobInfo& info,
                                     const Type& type);

}  // namespace fitup::bench

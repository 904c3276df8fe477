#pragma once
// The sheets of single parts.

#include "bench/type.h"
#include "fitup/job.h"
#include "fitup/model.h"
#include "fitup/plan.h"

namespace fitup::bench {

/// Adds the sheets of a part, in the format of the job or, where its words find no room there, in the next larger one.
[[nodiscard]] Status add_part_sheets(Paper& paper, const Plan& plan, const Model& model, PartId id,
                                     std::size_t quantity, const JobInfo& info, const Type& type);

/// The next larger sheet of the same family; the largest of it stays.
[[nodiscard]] PaperFormat larger(PaperFormat format);

}  // namespace fitup::bench

#pragma once
// True-size templates, split over pages.

#include "bench/template_layout.h"
#include "bench/template_shapes.h"
#include "bench/type.h"
#include "fitup/job.h"

namespace fitup::bench {

/// The rule that each page carries: 100 mm or 4 in.
[[nodiscard]] double rule_mm(UnitSystem units);

/// The pages of one shape. `first`, the number of the first of them, is said to those who glue.
[[nodiscard]] std::vector<Page> template_pages(const TemplateShape& shape, const JobInfo& info, double strip_mm,
                                               std::size_t first, const Type& type);

/// A list of the parts with their pages, then each flat part, and each member with holes or cut ends; small pieces
/// share pages.
[[nodiscard]] Paper templates_paper(const Plan& plan, const JobInfo& info, const Type& type);

}  // namespace fitup::bench

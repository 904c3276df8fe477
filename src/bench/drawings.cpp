// The drawings of a job.
// Entry: drawings_paper.

#include "bench/drawings.h"

#include <algorithm>

#include "bench/assembly_drawing.h"
#include "bench/part_sheets.h"
#include "bench/part_views.h"
#include "bench/strip.h"
#include "output/paths.h"

namespace fitup::bench {

Result<Paper> drawings_paper(const Plan& plan, const Model& model, const JobInfo& info, const Type& type) {
  Paper paper;
  paper.name = "Drawings";
  std::vector<PartId> ids;
  for (PartId id = 0; id < plan.parts.size(); ++id) {
    if (is_drawn(plan.parts[id])) ids.push_back(id);
  }
  std::sort(ids.begin(), ids.end(), [&](PartId a, PartId b) { return plan.parts[a].mark < plan.parts[b].mark; });
  const auto quantities = output::quantities(plan);
  for (const PartId id : ids) {
    if (interrupt_requested()) {
      return Failure{Failure::Kind::interrupted, "draw the parts", "interrupted; nothing was written"};
    }
    auto done = add_part_sheets(paper, plan, model, id, quantities[id], info, type);
    if (!done) return done.error();
  }
  if (auto done = add_whole_sheet(paper, plan, model, info, type); !done) return done.error();
  if (auto done = add_exploded_sheet(paper, plan, model, info, type); !done) return done.error();
  const PaperFormat format = info.bench.paper;
  Flow flow(paper, type, format, true, strip_height_mm(info, paper.name, type, format, true));
  add_parts_list(flow, plan, info);
  add_sections(flow, plan, info, type);
  add_strips(paper, info, type);
  return paper;
}

}  // namespace fitup::bench

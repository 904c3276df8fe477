// The Plan of a Layout: one step after another, each adding to the draft.
// Entry: make_plan.
#include <fmt/format.h>

#include "diag/catalogue.h"
#include "diag/words.h"
#include "fitup/plan.h"
#include "plan/build.h"

namespace fitup {

namespace {

void plan_box(plan::Build& build) {
  if (!plan::build_frame(build)) return;
  const auto rails = plan::add_rails(build);
  const auto hardware = plan::add_items(build, rails);
  const bool all_in_frame = plan::check_standing(build, rails);
  plan::add_face_plates(build);
  plan::add_covers(build);
  if (all_in_frame) plan::add_rod_plates(build, hardware);
  if (all_in_frame) plan::check_entry(build);
  plan::add_openings(build);
  plan::add_lift_points(build);
  plan::add_printed_aids(build);
}

}  // namespace

PlanResult make_plan(const Layout& layout) {
  PlanResult result;
  const Spec& spec = *layout.spec;
  plan::Draft draft;
  const BoxLayout& box = layout.boxes.front();
  if (layout.boxes.size() > 1) {
    const BoxSpec& last = *layout.boxes.back().spec;
    result.diagnostics.add(diag::say<"one-box-only">(last.place, layout.boxes.size(), diag::in_quotes(last.name)));
    return result;
  }
  plan::Build build{spec, box, draft, result.diagnostics, {}, {}, {}};
  plan_box(build);
  if (box.spec->feet) {
    result.diagnostics.add(diag::say<"no-effect">(box.spec->feet->place, build.key("feet"), "feet are not built"));
  }
  for (const Face f : all_faces) {
    const auto& lugs = box.spec->face(f).lugs;
    if (lugs) result.diagnostics.add(diag::say<"no-effect">(lugs->place, "lugs", "lugs are not built"));
  }
  if (result.diagnostics.has_errors()) return result;
  Plan plan = draft.finish();
  plan.name = spec.name;
  plan.title = spec.title;
  plan.revision = spec.revision;
  plan.frame_size = build.shell.size;
  for (const Face f : all_faces) {
    if (*box.spec->face(f).closed_by == Closure::open) plan.open_faces.emplace_back(to_text(f));
  }
  result.plan = std::move(plan);
  return result;
}

}  // namespace fitup

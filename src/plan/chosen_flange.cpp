// How far covers' flanges reach where the spec does not say it and the usual depth leaves a row beside them no room.
// Entry: with_shallower_flanges, leaves_room.
#include "plan/chosen_flange.h"

#include <algorithm>

#include "fitup/tables.h"
#include "plan/chosen_fixing.h"
#include "plan/rule_steps.h"

namespace fitup::plan {

namespace {

constexpr double least_depth_mm = 10;  // with less no screw stands in a flange

bool follows(const FaceSpec& face) {
  return *face.closed_by == Closure::cover && *face.style == CoverStyle::flanged && *face.flanges != Flanges::angle &&
         !face.flange_depth.given;
}

}  // namespace

std::vector<BoxSpec> with_shallower_flanges(const BoxSpec& box) {
  std::vector<BoxSpec> out;
  for (BoxSpec next = box;; out.push_back(next)) {
    bool any = false;
    for (FaceSpec& face : next.faces) {
      if (!follows(face)) continue;
      const double step = steps_of(*tables::find_thread(*face.screws.thread)).place_mm;
      const double depth = step * (std::ceil((face.flange_depth->mm() - tolerance::contact_mm) / step) - 1);
      if (depth < least_depth_mm) continue;
      face.flange_depth.value = Length::mm(depth);
      any = true;
    }
    if (!any) return out;
  }
}

bool leaves_no_room(const Diagnostics& said) {
  return std::any_of(said.all().begin(), said.all().end(),
                     [](const Diagnostic& d) { return d.id == "cover-row-without-room" || d.id == "flange-too-deep"; });
}

bool leaves_room(const Diagnostics& said, const Diagnostics& before) {
  return !leaves_no_room(said) && errors_in(said) < errors_in(before);
}

}  // namespace fitup::plan

// How far covers' flanges reach where the spec does not say it and the usual depth leaves a row beside them no room.
// Entry: with_shallower_flanges, leaves_room.
#include "plan/chosen_flange.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "fitup/tables.h"
#include "plan/chosen_fixing.h"
#include "plan/rule_steps.h"

namespace fitup::plan {

namespace {

constexpr double least_depth_mm = 10;  // with less no screw stands in a flange

bool is_of_angle(const FaceSpec& face) { return *face.flanges == Flanges::angle; }

bool follows(const FaceSpec& face) {
  if (*face.closed_by != Closure::cover || *face.style != CoverStyle::flanged) return false;
  return is_of_angle(face) ? !face.flange_section.given : !face.flange_depth.given;
}

/// The largest equal angle of the same table with shorter legs, of several the thickest that is no thicker.
const Section* next_smaller(const Section& than) {
  const auto in_inches = [](const Section& s) { return s.designation.ends_with("in"); };
  const auto is_before = [](const Section& a, const Section& b) {
    return std::pair(a.leg_a_mm, a.thickness_mm) < std::pair(b.leg_a_mm, b.thickness_mm);
  };
  const Section* best = nullptr;
  for (const Section& s : tables::sections()) {
    const bool equal = s.shape == SectionShape::angle && std::abs(s.leg_a_mm - s.leg_b_mm) < tolerance::contact_mm;
    if (!equal || in_inches(s) != in_inches(than)) continue;
    if (s.leg_a_mm > than.leg_a_mm - tolerance::contact_mm || s.thickness_mm > than.thickness_mm + tolerance::contact_mm)
      continue;
    if (best == nullptr || is_before(*best, s)) best = &s;
  }
  return best;
}

bool take_smaller_angle(FaceSpec& face) {
  const Section* now = tables::find_section(*face.flange_section);
  const Section* next = now == nullptr ? nullptr : next_smaller(*now);
  if (next == nullptr) return false;
  const double depth = next->leg_b_mm - next->thickness_mm - face.thickness->mm();
  if (depth < least_depth_mm) return false;
  face.flange_section.value = next->designation;
  face.flange_depth.value = Length::mm(depth);
  return true;
}

bool take_less_depth(FaceSpec& face) {
  const double step = steps_of(*tables::find_thread(*face.screws.thread)).place_mm;
  const double depth = step * (std::ceil((face.flange_depth->mm() - tolerance::contact_mm) / step) - 1);
  if (depth < least_depth_mm) return false;
  face.flange_depth.value = Length::mm(depth);
  return true;
}

// For its own screws.
bool is_too_shallow(const Diagnostics& said) {
  return std::any_of(said.all().begin(), said.all().end(),
                     [](const Diagnostic& d) { return d.id == "flange-too-shallow"; });
}

}  // namespace

std::vector<BoxSpec> with_shallower_flanges(const BoxSpec& box) {
  std::vector<BoxSpec> out;
  for (BoxSpec next = box;; out.push_back(next)) {
    bool any = false;
    for (FaceSpec& face : next.faces) {
      if (follows(face) && (is_of_angle(face) ? take_smaller_angle(face) : take_less_depth(face))) any = true;
    }
    if (!any) return out;
  }
}

bool leaves_no_room(const Diagnostics& said) {
  return std::any_of(said.all().begin(), said.all().end(),
                     [](const Diagnostic& d) { return d.id == "cover-row-without-room" || d.id == "flange-too-deep"; });
}

bool leaves_room(const Diagnostics& said, const Diagnostics& before) {
  return !leaves_no_room(said) && !is_too_shallow(said) && errors_in(said) < errors_in(before);
}

}  // namespace fitup::plan

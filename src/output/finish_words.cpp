// The coat, the measured frame and the general tolerances in words.
// Entry: finish_words, true_up_note, tolerance_note.

#include "output/finish_words.h"

#include <fmt/format.h>

#include <algorithm>

namespace fitup::output {
namespace {

bool has_threads(const Part& part) {
  if (const auto* member = std::get_if<Member>(&part.form)) {
    return std::any_of(member->holes.begin(), member->holes.end(),
                       [](const MemberHole& hole) { return hole.kind == HoleKind::tapped; });
  }
  if (const auto* flat = std::get_if<Flat>(&part.form)) {
    return std::any_of(flat->drilled.begin(), flat->drilled.end(),
                       [](const DrilledHole& hole) { return hole.purpose.rfind("tap ", 0) == 0; });
  }
  return part.role == Role::boss;
}

bool has_earth_stud(const Plan& plan, PartId id) {
  const auto part = [&](InstanceId i) { return plan.instances.at(i).part; };
  return std::any_of(plan.joints.begin(), plan.joints.end(), [&](const Joint& joint) {
    const bool weld = joint.kind == JointKind::weld && part(joint.b) == id;
    return weld && plan.parts.at(part(joint.a)).role == Role::stud;
  });
}

bool stands_in_frame(const Plan& plan, PartId id) {
  return std::any_of(plan.instances.begin(), plan.instances.end(), [id](const Instance& i) {
    return i.part == id && (i.group == "frame" || i.group.ends_with(" frame"));
  });
}

}  // namespace

std::string finish_words(const Plan& plan, const PaperUnits& units) {
  if (!plan.coat) return {};
  return fmt::format("{}, {} {} on each surface", plan.coat->words, units.length(plan.coat->surface_mm),
                     units.length());
}

std::string true_up_note(const Plan& plan, PartId id) {
  std::string text;
  if (plan.coat && has_threads(plan.parts.at(id))) {
    text = plan.coat->dipped ? "chase the threads after hot dipping"
                             : fmt::format("threads stay bare of {}: plug or chase them", plan.coat->words);
  }
  if (plan.coat && has_earth_stud(plan, id)) {
    text += std::string(text.empty() ? "" : "; ") + "mask the earth stud and the steel under its washer";
  }
  const bool trued =
      std::any_of(plan.trued.begin(), plan.trued.end(), [&](InstanceId i) { return plan.instances.at(i).part == id; });
  if (trued) text += std::string(text.empty() ? "" : "; ") + "made to the frame as it was measured";
  return text;
}

std::string tolerance_note(const Plan& plan, PartId id) {
  const bool cut = plan.parts.at(id).source == Source::cut;
  const Role role = plan.parts.at(id).role;
  if (role == Role::seal || role == Role::edge_strip) return "as soft material is cut; trim to fit";
  const std::string_view own = cut ? cut_tolerance(plan.cut_rules.tolerance) : sawn_tolerance;
  return stands_in_frame(plan, id) ? fmt::format("{}, welded {}", own, welded_tolerance) : std::string(own);
}

}  // namespace fitup::output

// What a part is fixed to and what comes through it, in words for a list.
// Entry: fixing_note, screw_tip_note.

#include "output/part_notes.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>
#include <iterator>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "fitup/tolerances.h"

namespace fitup::output {
namespace {

/// The marks of what the part's instances meet in joints of this kind, bought hardware left out.
std::set<std::string> partners(const Plan& plan, PartId id, JointKind kind) {
  std::set<std::string> marks;
  for (const Joint& joint : plan.joints) {
    if (joint.kind != kind) continue;
    for (const auto& [one, other] : {std::pair(joint.a, joint.b), std::pair(joint.b, joint.a)}) {
      if (plan.instances.at(one).part != id) continue;
      const Part& partner = plan.parts.at(plan.instances.at(other).part);
      if (partner.source != Source::bought) marks.insert(partner.mark);
    }
  }
  return marks;
}

/// Whether the line through `screw`'s axis passes the point, and runs square to the plate.
bool on_axis(const Pose& screw, Vec3 point, Vec3 normal) {
  const Vec3 local = screw.local(point);
  const bool along = std::abs(std::abs(dot(screw.z(), normal)) - 1) < tolerance::direction;
  return along && std::abs(local.x) < tolerance::contact_mm && std::abs(local.y) < tolerance::contact_mm;
}

/// The screws that stand in the hole at this place of the instance; true if there are some and none holds the part.
bool is_for_a_tip(const Plan& plan, InstanceId instance, Vec2 centre) {
  const Pose& pose = plan.instances.at(instance).pose;
  const Vec3 point = pose.point({centre.x, centre.y, 0});
  bool passed = false;
  for (const Fastener& fastener : plan.fasteners) {
    if (!on_axis(plan.instances.at(fastener.screw).pose, point, pose.z())) continue;
    if (std::find(fastener.stack.begin(), fastener.stack.end(), instance) != fastener.stack.end()) return false;
    const double along_mm = plan.instances.at(fastener.screw).pose.local(point).z;
    passed = passed || along_mm > 0;  // behind the head's seat
  }
  return passed;
}

/// Where a stud stands on a flat part, as its file is drawn: ", 100 from the left and 20 from below". All that are made
/// of one part have their studs at the same places.
std::string stud_place(const Plan& plan, InstanceId stud, InstanceId host, const PaperUnits& units) {
  const auto* flat = std::get_if<Flat>(&plan.parts.at(plan.instances.at(host).part).form);
  if (flat == nullptr) return {};
  const Vec3 at = plan.instances.at(host).pose.local(plan.instances.at(stud).pose.origin());
  const Vec2 corner = flat->profile.bounds().low;
  return fmt::format(", its middle {} from the left and {} {} from below, on the {} side of the sheet as drawn",
                     units.length(at.x - corner.x), units.length(at.y - corner.y), units.length(),
                     at.z > flat->thickness_mm / 2 ? "upper" : "lower");
}

/// "weld on 7 x M4 DIN 929": the bought nuts and studs that are welded on or set in one of the part.
std::string set_note(const Plan& plan, PartId id, const PaperUnits& units) {
  std::map<std::string, std::size_t> counts;
  for (const Joint& joint : plan.joints) {
    for (const auto& [nut, host] : {std::pair(joint.a, joint.b), std::pair(joint.b, joint.a)}) {
      const Part& part = plan.parts.at(plan.instances.at(nut).part);
      if (plan.instances.at(host).part != id || part.source != Source::bought) continue;
      const std::string place = part.role == Role::stud ? stud_place(plan, nut, host, units) : "";
      if (joint.kind == JointKind::weld) ++counts["weld on {} x " + part.size + place];
      if (joint.kind == JointKind::bearing && part.role == Role::insert) ++counts["set {} x " + part.size];
    }
  }
  const auto of_part = [id](const Instance& i) { return i.part == id; };
  const auto pieces = static_cast<std::size_t>(std::count_if(plan.instances.begin(), plan.instances.end(), of_part));
  std::string text;
  for (const auto& [words, count] : counts) {
    text += (text.empty() ? "" : "; ") + fmt::format(fmt::runtime(words), count / pieces);
  }
  return text;
}

/// Those of `bolted` whose holes are marked through onto a member once it is welded in: what the chance of going
/// together takes to be transferred.
std::vector<std::string> marked_through(const Plan& plan, PartId id, const std::set<std::string>& bolted) {
  std::set<std::string> through;
  for (const Pattern& pattern : plan.patterns) {
    for (const PatternBody& body : pattern.bodies) {
      for (const PatternHole& hole : body.holes) {
        if (hole.held == Making::transferred) through.insert(plan.parts.at(plan.instances.at(hole.plate).part).mark);
      }
    }
  }
  std::vector<std::string> marks;
  if (plan.parts.at(id).source != Source::sawn) return marks;
  std::copy_if(bolted.begin(), bolted.end(), std::back_inserter(marks),
               [&](const std::string& mark) { return through.contains(mark); });
  return marks;
}

}  // namespace

std::string fixing_note(const Plan& plan, PartId id, const PaperUnits& units) {
  const auto welded = partners(plan, id, JointKind::weld);
  const auto bolted = partners(plan, id, JointKind::bolted);
  std::string text = welded.empty() ? "" : fmt::format("weld to {}", fmt::join(welded, ", "));
  if (!bolted.empty()) {
    text += fmt::format("{}screwed to {}{}", text.empty() ? "" : "; ", fmt::join(bolted, ", "),
                        welded.empty() ? ", not welded" : "");
  }
  const auto through = marked_through(plan, id, bolted);
  if (!through.empty()) {
    text += fmt::format(
        "; the holes for {} are marked through once the frame is welded, their places here say where "
        "they come to",
        fmt::join(through, ", "));
  }
  const std::string set = set_note(plan, id, units);
  if (!set.empty()) text += (text.empty() ? "" : "; ") + set;
  return text;
}

std::string screw_tip_note(const Plan& plan, PartId id, const PaperUnits& units) {
  const auto* flat = std::get_if<Flat>(&plan.parts.at(id).form);
  const auto stands =
      std::find_if(plan.instances.begin(), plan.instances.end(), [&](const Instance& i) { return i.part == id; });
  if (flat == nullptr || stands == plan.instances.end()) return {};
  const auto instance = static_cast<InstanceId>(stands - plan.instances.begin());
  std::map<double, std::size_t> holes;  // by diameter
  for (const Loop& hole : flat->profile.holes) {
    const auto circle = hole.as_circle();
    if (circle && is_for_a_tip(plan, instance, circle->centre)) ++holes[std::round(2e6 * circle->radius) / 1e6];
  }
  std::string text;
  for (const auto& [diameter_mm, count] : holes) {
    text += fmt::format("{}{} hole{} {} {} wide for {}", text.empty() ? "" : "; ", count, count == 1 ? "" : "s",
                        units.length(diameter_mm), units.length(), count == 1 ? "a screw's tip" : "screw tips");
  }
  return text;
}

}  // namespace fitup::output

// The checked sequence as a person does it.
// Entry: assembly_steps, way_words, tightenings.

#include "bench/assembly_steps.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>

#include "bench/held_holes.h"

namespace fitup::bench {
namespace {

constexpr Vec3 from_behind{1, 1.6, 1.1};

const Part& part_of(const Plan& plan, InstanceId id) { return plan.parts[plan.instances[id].part]; }

bool adds_role(const Plan& plan, const std::vector<InstanceId>& added, Role role) {
  return std::any_of(added.begin(), added.end(), [&](InstanceId id) { return part_of(plan, id).role == role; });
}

std::string title_of(const Step& step) {
  switch (step.kind) {
    case StepKind::weld: return "Weld: " + step.what;
    case StepKind::fasten: return "Tighten: " + step.what;
    case StepKind::place:
      return step.ways.empty() ? "Place: " + step.what
                               : fmt::format("Place: {}, {}", step.what, way_words(step.ways.front()));
  }
  return step.what;
}

std::set<PartId> parts_of(const Plan& plan, const Step& step) {
  std::set<PartId> parts;
  for (const InstanceId id : step.adds) parts.insert(plan.instances[id].part);
  return parts;
}

bool is_like(const Plan& plan, const Step& a, const Step& b) {
  if (a.kind == StepKind::fasten && b.kind == StepKind::fasten) {
    return a.adds.size() == 1 && b.adds.size() == 1 && parts_of(plan, a) == parts_of(plan, b);
  }
  if (a.kind != StepKind::place || b.kind != StepKind::place || a.ways.empty() || b.ways.empty()) return false;
  return a.ways.front() == b.ways.front() && adds_role(plan, a.adds, Role::item) && adds_role(plan, b.adds, Role::item);
}

void list_parts(const Plan& plan, const std::set<InstanceId>& after_drilling, AssemblyStep& step) {
  std::map<std::string, std::size_t> counts;
  std::map<std::string, std::size_t> set_later;
  std::map<std::string, std::size_t> welded_later;
  for (const InstanceId id : step.added) {
    const Part& part = part_of(plan, id);
    const bool welding = step.kind == StepKind::weld;
    const bool drilled = welding && after_drilling.contains(id);
    const bool insert = welding && part.role == Role::insert;
    ++(drilled ? welded_later : insert ? set_later : counts)[fmt::format("{} {}", part.mark, part.name)];
    if (!drilled && !insert) step.at_once.push_back(id);
  }
  step.parts.assign(counts.begin(), counts.end());
  for (const auto& [what, count] : welded_later) {
    step.minds.push_back(
        fmt::format("Not yet: {} x {}, each welded on once its hole is marked through and drilled.", count, what));
  }
  for (const auto& [what, count] : set_later) {
    step.minds.push_back(fmt::format("Not yet: {} x {} is set after welding{}, with its tool.", count, what,
                                     plan.coat ? " and coating" : ""));
  }
}

std::string_view box_of(const Instance& instance) {
  const std::string_view key = instance.key;
  return key.starts_with("box.") ? key.substr(0, key.find('.', 4)) : std::string_view();
}

/// An aid for an item serves in the boxes where such items stand: "drill guide for block".
bool serves(const Plan& plan, const Part& aid, const AssemblyStep& step) {
  bool of_items = false;
  for (const Instance& instance : plan.instances) {
    const Part& item = plan.parts[instance.part];
    if (item.role != Role::item || !aid.name.ends_with(" for " + item.name)) continue;
    of_items = true;
    const bool here = std::any_of(step.added.begin(), step.added.end(),
                                  [&](InstanceId id) { return box_of(plan.instances[id]) == box_of(instance); });
    if (here) return true;
  }
  return !of_items;
}

void list_aids(const Plan& plan, AssemblyStep& step) {
  std::set<Role> wanted;
  if (step.kind == StepKind::weld) wanted.insert(Role::corner_square);
  if (adds_role(plan, step.added, Role::rod_plate)) wanted.insert({Role::rod_bush, Role::drill_guide});
  if (adds_role(plan, step.added, Role::item)) wanted.insert({Role::spacer, Role::nut_gauge});
  if (adds_role(plan, step.added, Role::cover_flange)) wanted.insert(Role::shim);
  for (const Part& part : plan.parts) {
    if (part.source == Source::printed && wanted.count(part.role) > 0 && serves(plan, part, step)) {
      step.aids.push_back(fmt::format("{} {}", part.mark, part.name));
    }
  }
}

bool has_elements(const Plan& plan, const Seams& seams, const std::vector<InstanceId>& added) {
  return std::any_of(seams.all.begin(), seams.all.end(), [&](const Seam& seam) {
    const Joint& joint = plan.joints[seam.joint];
    return seam.stitch && (std::find(added.begin(), added.end(), joint.a) != added.end() ||
                           std::find(added.begin(), added.end(), joint.b) != added.end());
  });
}

void list_cautions(const Plan& plan, const Seams& seams, AssemblyStep& step, bool first_item) {
  if (step.kind == StepKind::weld) {
    step.minds.push_back("Weld with no item in the box and nothing coated or zinc plated near the seam; fumes go out.");
    if (adds_role(plan, step.added, Role::rod_plate) && !adds_role(plan, step.added, Role::ring_member)) {
      step.minds.push_back(
          "Set it on dummy rods in all holes and tack it so: the rods of the items must find it again.");
    }
    if (has_elements(plan, seams, step.added)) {
      step.minds.push_back(
          "n × l (e): n elements l long, of full size to their ends, e clear between their ends, one at each end of "
          "the "
          "seam. Lay them from the middle outwards, by turns on opposite edges, so that the sheet stays flat (common "
          "practice).");
    }
  }
  if (first_item && adds_role(plan, step.added, Role::item)) {
    step.minds.push_back(
        "Stored energy: if the items are cells or capacitors, cap every terminal, use insulated tools, wear no metal, "
        "and "
        "have someone beside you. They are heavy: lift them with help.");
  }
  if (adds_role(plan, step.added, Role::item) && adds_role(plan, step.added, Role::nut)) {
    step.minds.push_back(
        "Inner nuts: set to the gauge with permanent thread lock (common practice), before the item goes in; the outer "
        "nuts are tightened against them.");
  }
  if (adds_role(plan, step.added, Role::cover_sheet)) {
    step.minds.push_back("Nothing may lie loose inside; sheet edges are sharp.");
  }
  if (adds_role(plan, step.added, Role::seal)) {
    step.minds.push_back(fmt::format("Stick the seal on clean{} steel first; it is cut as one closed ring.",
                                     plan.coat ? ", coated" : ""));
  }
  if (adds_role(plan, step.added, Role::eye)) {
    step.minds.push_back("Eyes are turned in to their collar by hand; lift as the rules of your place ask.");
  }
}

/// What hangs together with the parts by welds, of those that are there.
std::set<InstanceId> welded_to(const Plan& plan, const std::vector<InstanceId>& parts,
                               const std::vector<InstanceId>& there) {
  const std::set<InstanceId> may(there.begin(), there.end());
  std::set<InstanceId> found(parts.begin(), parts.end());
  for (std::size_t before = 0; before != found.size();) {
    before = found.size();
    for (const Joint& joint : plan.joints) {
      if (joint.kind != JointKind::weld) continue;
      if (found.count(joint.a) > 0 && may.count(joint.b) > 0) found.insert(joint.b);
      if (found.count(joint.b) > 0 && may.count(joint.a) > 0) found.insert(joint.a);
    }
  }
  return found;
}

/// What is moved as one that was made before is drawn bold. Each box is welded by itself: the others are not there.
void choose_picture(const Plan& plan, const Step& step, AssemblyStep& out) {
  std::set<InstanceId> bold(step.adds.begin(), step.adds.end());
  if (step.kind == StepKind::place && step.adds.empty()) {
    std::string numbers;
    for (std::size_t i = 0; i < step.with.size(); ++i) {
      const auto& made = plan.steps[step.with[i]].adds;
      bold.insert(made.begin(), made.end());
      numbers += (i == 0 ? "" : i + 1 == step.with.size() ? " and " : ", ") + std::to_string(step.with[i] + 1);
    }
    if (!numbers.empty()) out.moved = fmt::format("what step{} {} made", step.with.size() > 1 ? "s" : "", numbers);
  }
  out.drawn_bold.assign(bold.begin(), bold.end());
  const bool by_itself = step.kind == StepKind::weld && plan.frames.size() > 1;
  const auto own = by_itself ? welded_to(plan, step.adds, out.there) : std::set<InstanceId>{};
  for (const InstanceId id : out.there) {
    if (bold.count(id) > 0 || (by_itself && own.count(id) == 0)) continue;
    out.drawn_light.push_back(id);
  }
}

AssemblyStep begun(const Plan& plan, const Step& step, std::size_t number, const std::vector<InstanceId>& there) {
  AssemblyStep out;
  out.title = title_of(step);
  out.first = out.last = number;
  out.kind = step.kind;
  out.added = step.adds;
  out.there = there;
  // What comes from the back, the right or above the back is seen from there.
  const bool behind = !step.ways.empty() && step.ways.front().y < -0.9;
  out.from_behind = behind || step.what.find("back") != std::string::npos;
  if (out.from_behind) out.towards_viewer = from_behind;
  choose_picture(plan, step, out);
  return out;
}

/// "Place, one after the other: block 1, thermal plate 1, block 2"; "Tighten: mount screw 1, mount screw 2"
void join(AssemblyStep& into, const Step& step, std::size_t number) {
  const std::string comes = step.ways.empty() ? "" : ", " + way_words(step.ways.front());
  if (into.first == into.last && step.kind == StepKind::place) {
    const std::string what = into.title.substr(0, into.title.size() - comes.size());
    into.title = "Place" + comes + ", one after the other" + what.substr(what.find(':'));
  }
  into.title += ", " + step.what;
  into.last = number;
  into.added.insert(into.added.end(), step.adds.begin(), step.adds.end());
  std::sort(into.added.begin(), into.added.end());
  into.drawn_bold = into.added;
}

bool is_on_rod(const Plan& plan, InstanceId nut) {
  return std::any_of(plan.joints.begin(), plan.joints.end(), [&](const Joint& joint) {
    if (joint.kind != JointKind::thread || (joint.a != nut && joint.b != nut)) return false;
    return part_of(plan, joint.a == nut ? joint.b : joint.a).role == Role::rod;
  });
}

std::string hold_words(const Part& nut, bool on_rod) {
  const bool own = nut.name.find("prevailing") != std::string::npos;
  if (on_rod) {
    return own ? "its prevailing torque keeps this nut; hold the inner nut, locked on its rod, with a second spanner"
               : "hold the inner nut, locked on its rod, with a second spanner; keep this one by medium thread lock "
                 "and a "
                 "paint mark across it (common practice)";
  }
  return own ? "its prevailing torque keeps this nut; hold the screw's head"
             : "hold the screw's head; keep this nut by medium thread lock and a paint mark across it (common "
               "practice)";
}

std::string thread_in(std::string_view size) { return std::string(size.substr(0, size.find(' '))); }

}  // namespace

std::string way_words(Vec3 way) {
  if (way.x > 0.9) return "towards the right";
  if (way.x < -0.9) return "towards the left";
  if (way.y > 0.9) return "towards the back";
  if (way.y < -0.9) return "towards the front";
  if (way.z > 0.9) return "upwards";
  if (way.z < -0.9) return "from above";
  return "askew";
}

std::vector<AssemblyStep> assembly_steps(const Plan& plan, const Seams& seams) {
  std::vector<AssemblyStep> all;
  std::vector<InstanceId> there;
  for (std::size_t i = 0; i < plan.steps.size(); ++i) {
    const Step& step = plan.steps[i];
    if (i > 0 && is_like(plan, plan.steps[i - 1], step)) {
      join(all.back(), step, i + 1);
    } else {
      all.push_back(begun(plan, step, i + 1, there));
    }
    there.insert(there.end(), step.adds.begin(), step.adds.end());
  }
  const std::set<InstanceId> after_drilling = nuts_after_drilling(plan);
  bool item_seen = false;
  for (AssemblyStep& step : all) {
    list_parts(plan, after_drilling, step);
    list_aids(plan, step);
    list_cautions(plan, seams, step, !item_seen);
    item_seen = item_seen || adds_role(plan, step.added, Role::item);
  }
  return all;
}

std::vector<Tightening> tightenings(const Plan& plan, const AssemblyStep& step) {
  std::map<std::pair<std::string, std::string>, Tightening> all;
  for (const InstanceId id : step.added) {
    const Part& part = part_of(plan, id);
    if (part.role != Role::screw && part.role != Role::nut && part.role != Role::eye) continue;
    if (step.kind != StepKind::fasten) continue;
    const std::string thread = thread_in(part.size);
    const bool on_rod = part.role == Role::nut && is_on_rod(plan, id);
    const std::string hold = part.role == Role::nut ? hold_words(part, on_rod) : std::string();
    Tightening& one = all[{thread, hold}];
    one.thread = thread;
    ++one.count;
    one.hold = hold;
    one.on_item = one.on_item || on_rod;
  }
  std::vector<Tightening> out;
  for (auto& [key, one] : all) out.push_back(std::move(one));
  return out;
}

}  // namespace fitup::bench

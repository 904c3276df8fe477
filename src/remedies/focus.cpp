// The part of a plan that a finding is about, as a plan of its own.
// Entry: instances_of, plan_of.
#include "remedies/focus.h"

#include <algorithm>
#include <map>
#include <optional>

namespace fitup::remedies {

namespace {

constexpr std::size_t gone = static_cast<std::size_t>(-1);

std::string label(const Plan& plan, const Instance& instance) {
  const std::string& mark = plan.parts[instance.part].mark;
  return mark.empty() ? instance.name : mark + " " + instance.name;
}

/// New numbers for what is kept, in the old order.
std::vector<std::size_t> numbered(const std::vector<bool>& kept) {
  std::vector<std::size_t> numbers(kept.size(), gone);
  std::size_t next = 0;
  for (std::size_t i = 0; i < kept.size(); ++i) {
    if (kept[i]) numbers[i] = next++;
  }
  return numbers;
}

void keep_fasteners(const Plan& plan, const std::vector<std::size_t>& number, Plan& out) {
  for (Fastener f : plan.fasteners) {
    f.screw = number[f.screw];
    for (InstanceId& id : f.stack) id = number[id];
    std::erase(f.stack, gone);
    if (f.screw != gone && !f.stack.empty()) out.fasteners.push_back(std::move(f));
  }
}

}  // namespace

std::vector<InstanceId> instances_of(const Finding& finding, const Plan& plan) {
  std::map<std::string, InstanceId> by_label;
  for (InstanceId i = 0; i < plan.instances.size(); ++i) by_label.emplace(label(plan, plan.instances[i]), i);
  std::vector<InstanceId> found;
  for (const std::string& part : finding.parts) {
    if (const auto it = by_label.find(part); it != by_label.end()) found.push_back(it->second);
  }
  return found;
}

Plan plan_of(const Plan& plan, const std::set<std::string>& names) {
  std::vector<bool> kept(plan.instances.size());
  std::vector<bool> used(plan.parts.size());
  for (InstanceId i = 0; i < plan.instances.size(); ++i) {
    kept[i] = names.contains(plan.instances[i].name);
    if (kept[i]) used[plan.instances[i].part] = true;
  }
  const auto number = numbered(kept);
  const auto part_number = numbered(used);
  Plan out;
  for (PartId p = 0; p < plan.parts.size(); ++p) {
    if (used[p]) out.parts.push_back(plan.parts[p]);
  }
  for (InstanceId i = 0; i < plan.instances.size(); ++i) {
    if (!kept[i]) continue;
    out.instances.push_back(plan.instances[i]);
    out.instances.back().part = part_number[plan.instances[i].part];
  }
  for (Joint joint : plan.joints) {
    joint.a = number[joint.a];
    joint.b = number[joint.b];
    if (joint.a != gone && joint.b != gone) out.joints.push_back(joint);
  }
  for (Zone zone : plan.zones) {
    zone.owner = number[zone.owner];
    if (zone.owner != gone) out.zones.push_back(std::move(zone));
  }
  keep_fasteners(plan, number, out);
  for (KeptApart apart : plan.kept_apart) {
    for (std::vector<InstanceId>* group : {&apart.parts, &apart.others}) {
      for (InstanceId& id : *group) id = number[id];
      std::erase(*group, gone);
    }
    if (!apart.parts.empty() && !apart.others.empty()) out.kept_apart.push_back(std::move(apart));
  }
  out.weld_rules = plan.weld_rules;
  out.load_rules = plan.load_rules;
  out.frames = plan.frames;
  return out;
}

}  // namespace fitup::remedies

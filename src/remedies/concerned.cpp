// What a finding is about, by the plan in which it was found.
// Entry: concerned.
#include "remedies/focus.h"
#include "remedies/knobs.h"

namespace fitup::remedies {

Concerned concerned(const Finding& finding, const Plan& plan) {
  Concerned what;
  what.check = finding.check;
  what.cause = finding.cause;
  what.value = finding.value.value_or(0);
  what.fails = finding.verdict == Verdict::fail;
  if (finding.key.ends_with(".welds") || finding.key.ends_with(".stitch")) what.keys.insert(finding.key);
  for (const InstanceId id : instances_of(finding, plan)) {
    const Instance& instance = plan.instances[id];
    what.names.insert(instance.name);
    what.keys.insert(instance.key);
    const Part& part = plan.parts[instance.part];
    what.roles.insert(part.role);
    const auto* flat = std::get_if<Flat>(&part.form);
    if (flat == nullptr || !what.material.empty()) continue;
    what.material = part.material;
    what.thickness_mm = flat->thickness_mm;
  }
  return what;
}

}  // namespace fitup::remedies

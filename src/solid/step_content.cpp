// Decides products, names, colours and the tree of a STEP file.
// Entry: write_assembly_step, write_part_step.
#include "solid/step_content.h"

#include <fmt/format.h>
#include <algorithm>

#include "solid/guarded.h"

namespace fitup {
namespace solid {
namespace {

/// Calm colours: what is one material in the shop looks alike, covers and items stand off from the frame.
Colour colour_of(Role role) {
  switch (role) {
    case Role::ring_member:
    case Role::upright:
    case Role::cross_bar:
    case Role::brace:
    case Role::gusset:
    case Role::wall:
    case Role::rib:
    case Role::cap: return {0.45, 0.48, 0.51};
    case Role::rail:
    case Role::landing:
    case Role::doubler:
    case Role::bearer:
    case Role::foot:
    case Role::lug:
    case Role::nut_strip:
    case Role::mount_strip:
    case Role::boss: return {0.36, 0.39, 0.42};
    case Role::rod_plate:
    case Role::rod_plate_flange: return {0.58, 0.60, 0.62};
    case Role::face_plate: return {0.66, 0.69, 0.71};
    case Role::cover_sheet:
    case Role::cover_flange: return {0.44, 0.58, 0.62};
    case Role::item: return {0.74, 0.70, 0.60};
    case Role::rod:
    case Role::nut:
    case Role::washer:
    case Role::insert:
    case Role::eye:
    case Role::stud:
    case Role::screw: return {0.80, 0.76, 0.55};
    case Role::seal:
    case Role::edge_strip:
    case Role::gland: return {0.30, 0.31, 0.33};
    case Role::spacer:
    case Role::drill_guide:
    case Role::row_guide:
    case Role::rod_bush:
    case Role::nut_gauge:
    case Role::corner_square:
    case Role::shim: return {0.80, 0.56, 0.40};
  }
  return {0.5, 0.5, 0.5};
}

StepProduct product_of(const Part& part, const PartSolid& solid) {
  std::string description = part.size;
  if (!part.material.empty()) description += (description.empty() ? "" : ", ") + part.material;
  return {part.mark, fmt::format("{} {}", part.mark, part.name), description, colour_of(part.role), &solid};
}

StepGroup& group_named(std::vector<StepGroup>& groups, const std::string& name, const std::string& top) {
  const auto found = std::find_if(groups.begin(), groups.end(), [&](const StepGroup& g) { return g.name == name; });
  if (found != groups.end()) return *found;
  groups.push_back({fmt::format("{}/{}", top, name), name, {}});
  return groups.back();
}

}  // namespace

StepContent assembly_content(const Plan& plan, const Model& model, const StepJob& job) {
  StepContent content{job, {}, {}};
  // A part that stands nowhere would be a second top of the file.
  std::vector<bool> used(plan.parts.size());
  for (const Instance& instance : plan.instances) used.at(instance.part) = true;
  std::vector<std::size_t> product_of_part(plan.parts.size());
  for (PartId id = 0; id < plan.parts.size(); ++id) {
    if (!used[id]) continue;
    product_of_part[id] = content.products.size();
    content.products.push_back(product_of(plan.parts[id], model.parts.at(id)));
  }
  for (const Instance& instance : plan.instances) {
    const std::string name = instance.group.empty() ? "other" : instance.group;
    group_named(content.groups, name, job.name)
        .uses.push_back({product_of_part[instance.part], instance.pose, instance.name});
  }
  return content;
}

StepContent part_content(const Part& part, const PartSolid& solid, const StepJob& job) {
  return {job, {product_of(part, solid)}, {}};
}

}  // namespace solid

Result<std::string> write_assembly_step(const Plan& plan, const Model& model, const StepJob& job) {
  if (plan.instances.empty()) return solid::kernel_failure("writing STEP", "there is nothing in the assembly");
  return solid::step_text(solid::assembly_content(plan, model, job));
}

Result<std::string> write_part_step(const Part& part, const PartSolid& solid, const StepJob& job) {
  return solid::step_text(solid::part_content(part, solid, job));
}

}  // namespace fitup

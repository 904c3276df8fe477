// A Plan in the making: instances, joints, and which parts are one.
// Entry: Draft::add, Draft::finish.
#include "plan/draft.h"

#include <algorithm>
#include <map>
#include <utility>

#include "plan/same_part.h"

namespace fitup::plan {

namespace {

// Bought parts are steel; items bring their own mass.
constexpr const char* bought_material = "S235JR";

void weigh(Part& part) {
  if (part.source == Source::stand_in || part.source == Source::printed) return;
  // An item's mass includes its rods.
  if (part.role == Role::rod) return;
  const Material* m = tables::find_material(part.material.empty() ? bought_material : part.material);
  if (m != nullptr) part.mass_kg = volume_mm3(part) * 1e-9 * m->density_kg_per_m3;
}

// A mark belongs to a role; a second, different part in that role gets a letter behind it.
std::string free_mark(const std::string& wanted, const std::vector<Part>& parts) {
  const auto taken = [&parts](const std::string& mark) {
    return std::any_of(parts.begin(), parts.end(), [&mark](const Part& p) { return p.mark == mark; });
  };
  std::string mark = wanted;
  for (int i = 2; taken(mark); ++i) {
    mark = i <= 26 ? wanted + static_cast<char>('A' + i - 1) : wanted + "-" + std::to_string(i);
  }
  return mark;
}

}  // namespace

InstanceId Draft::add(Part part, const Pose& pose, std::string name, const Origin& origin) {
  parts_.push_back(std::move(part));
  instances_.push_back({0, pose, std::move(name), origin.key, origin.place, origin.group});
  return instances_.size() - 1;
}

void Draft::add_loose(Part part, int count) {
  part.loose_count = count;
  loose_.push_back(std::move(part));
}

void Draft::join(InstanceId a, InstanceId b, JointKind kind, Vec3 normal, double largest_gap_mm, double major_mm) {
  joints_.push_back({a, b, kind, normal, largest_gap_mm, major_mm});
}

Plan Draft::finish() const {
  Plan plan;
  struct First {
    PartId part = 0;
    Pose to_common;
  };
  std::map<std::string, First> known;
  for (InstanceId id = 0; id < instances_.size(); ++id) {
    const Attitude attitude = attitude_of(parts_[id]);
    auto [it, added] = known.try_emplace(attitude.key, First{plan.parts.size(), attitude.to_common});
    if (added) {
      Part part = parts_[id];
      part.mark = free_mark(part.mark, plan.parts);
      plan.parts.push_back(std::move(part));
      weigh(plan.parts.back());
    }
    Instance instance = instances_[id];
    instance.part = it->second.part;
    if (!added) instance.pose = instance.pose * attitude.to_common.inverse() * it->second.to_common;
    plan.instances.push_back(std::move(instance));
  }
  for (const Part& part : loose_) {
    plan.parts.push_back(part);
    weigh(plan.parts.back());
  }
  plan.joints = joints_;
  plan.zones = zones;
  plan.fasteners = fasteners;
  plan.lift_points = lift_points;
  return plan;
}

}  // namespace fitup::plan

// Looks which part stands where the full fillet would lie.
// Entry: remedy_of_small.
#include "loads/seam_room.h"

#include <fmt/format.h>

#include "checks/rules.h"
#include "checks/seams.h"
#include "fitup/tolerances.h"
#include "loads/joint_groups.h"

namespace fitup::loads {

namespace {

bool is_mount(const Plan& plan, InstanceId id) {
  const Role role = plan.parts[plan.instances[id].part].role;
  return role == Role::foot || role == Role::lug;
}

// The bead as large as it should be, about the same corner.
checks::PlacedBody full_bead(const Seam& seam, double least_mm) {
  Prism bead = seam.bead;
  const Vec2 corner = bead.profile.outer.vertices.front().at;
  for (Vertex& v : bead.profile.outer.vertices) v.at = corner + least_mm / seam.size_mm * (v.at - corner);
  return checks::place(Body{{bead}, {bead}, true, {}}, Pose{});
}

const Instance* in_the_way(const Plan& plan, const Seam& seam, double least_mm) {
  const checks::PlacedBody bead = full_bead(seam, least_mm);
  const Joint& joint = plan.joints[seam.joint];
  for (InstanceId id = 0; id < plan.instances.size(); ++id) {
    if (id == joint.a || id == joint.b) continue;
    const Instance& instance = plan.instances[id];
    const auto body = checks::place(body_of(plan.parts[instance.part]), instance.pose);
    if (checks::decide(bead, body) == checks::Decision::overlap) return &instance;
  }
  return nullptr;
}

}  // namespace

SeamRemedy remedy_of_small(const Plan& plan, const Seam& seam, double least_mm) {
  const Joint& joint = plan.joints[seam.joint];
  const double stated = checks::weld_rule(plan, joint).leg_mm;
  JointGroup group;
  group.of = joint.a;
  group.joints = {seam.joint};
  const std::string welds = key_of_welds(plan, group);
  if (stated > 0 && seam.size_mm >= stated - tolerance::contact_mm) {
    return {fmt::format("{}.leg = {:.1f} mm mends it where it has the room", welds, least_mm), welds};
  }
  const Instance* other = in_the_way(plan, seam, least_mm);
  const std::string why = other == nullptr ? "the two parts leave it no more room"
                                           : fmt::format("{} leaves it no more room", other->name);
  const double lacks = least_mm - seam.size_mm;
  const std::string lack = fmt::format("{:.{}f} mm", lacks, lacks < 0.1 ? 3 : 1);
  for (const InstanceId id : {joint.a, joint.b}) {
    if (other != nullptr || plan.parts[plan.instances[id].part].role != Role::rail) continue;
    const std::string& rails = plan.instances[id].key;
    return {fmt::format(
                "It lacks {}, as {}; rails that end elsewhere beside that edge mend it: wider or narrower ({}.margin, "
                "{}.outer_width) or moved ({}.at)",
                lack, why, rails, rails, rails),
            rails};
  }
  if (!is_mount(plan, joint.a) && !is_mount(plan, joint.b)) {
    const std::string& own = plan.instances[joint.a].key;
    return {fmt::format("It lacks {}, as {}; {} mends it", lack, why,
                        other == nullptr ? "letting one reach that much further beyond the other"
                                         : fmt::format("as much more between the two ({} or {})", own, other->key)),
            other == nullptr ? welds : own};
  }
  const std::string& key = plan.instances[is_mount(plan, joint.a) ? joint.a : joint.b].key;
  return {fmt::format("It lacks {}, as {}; feet or lugs at the other sides ({}.out), where that does not reach "
                      "({}.at), or {} mends it",
                      lack, why, key, key,
                      other == nullptr ? fmt::format("a width ({}.width) that reaches past it", key)
                                       : fmt::format("moving that away by as much ({})", other->key)),
          key};
}

}  // namespace fitup::loads

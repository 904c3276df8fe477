#pragma once
// Flat parts welded to each other by hand: what the sheet under a foot or a boss is told by.

#include "fitup/plan.h"
#include "fitup/seams.h"

namespace fitup::loads {

struct FlatsByHand {
  Plan plan;
  Seams seams;
  double leg_mm = 3;  // of each seam

  InstanceId add_flat(Role role, Profile profile, double thickness, Pose pose) {
    Part part;
    part.role = role;
    part.form = Flat{std::move(profile), thickness, {}};
    plan.parts.push_back(std::move(part));
    Instance i;
    i.part = plan.parts.size() - 1;
    i.pose = pose;
    plan.instances.push_back(i);
    return plan.instances.size() - 1;
  }

  std::size_t weld(InstanceId a, InstanceId b, Vec3 normal = {}) {
    Joint joint;
    joint.a = a;
    joint.b = b;
    joint.normal = normal;
    plan.joints.push_back(joint);
    return plan.joints.size() - 1;
  }

  void seam(std::size_t joint, Vec3 from, Vec3 to) {
    Seam s;
    s.joint = joint;
    s.from = from;
    s.to = to;
    s.length_mm = norm(to - from);
    s.size_mm = leg_mm;
    seams.all.push_back(s);
  }
};

}  // namespace fitup::loads

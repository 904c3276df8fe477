// Joints of one instance to lines of weld with the strength of the weakest part.
// Entry: joint_group.
#include "loads/joint_groups.h"

#include <algorithm>
#include <variant>

namespace fitup::loads {

namespace {

void take_weaker(JointGroup& group, const Part& part) {
  const double thickness = welded_thickness_mm(part);
  const auto strength = strength_of(part.material, thickness);
  if (!strength) {
    group.known = false;
    return;
  }
  if (thickness > 0 && (!group.thinnest || thickness < group.thinnest->mm)) group.thinnest = {thickness, *strength};
  if (!group.weaker ||
      strength->tensile_mpa / strength->weld_beta < group.weaker->tensile_mpa / group.weaker->weld_beta)
    group.weaker = strength;
}

Box3 box_of(Vec3 low, Vec3 high, const Pose& pose) {
  Box3 box;
  for (const Vec3 corner : {low, high}) box.add(pose.point(corner));
  return box;
}

/// What a part consists of, as boxes: an angle's legs each by itself.
std::vector<Box3> boxes_of(const Part& part, const Pose& pose) {
  const auto* member = std::get_if<Member>(&part.form);
  if (member != nullptr && member->section.shape == SectionShape::angle) {
    const Section& s = member->section;
    return {box_of({}, {s.leg_a_mm, s.thickness_mm, member->length_mm}, pose),
            box_of({}, {s.thickness_mm, s.leg_b_mm, member->length_mm}, pose)};
  }
  std::vector<Box3> boxes;
  for (const Prism& p : body_of(part).inner) boxes.push_back(Prism{p.profile, pose * p.pose, p.length_mm}.bounds());
  return boxes;
}

/// Where the two touch.
Box3 contact(const Plan& plan, const Joint& joint) {
  constexpr double slack = 0.01;
  Box3 all;
  const Instance& a = plan.instances[joint.a];
  const Instance& b = plan.instances[joint.b];
  for (const Box3& one : boxes_of(plan.parts[a.part], a.pose)) {
    for (const Box3& two : boxes_of(plan.parts[b.part], b.pose)) {
      const Box3 both{
          {std::max(one.low.x, two.low.x), std::max(one.low.y, two.low.y), std::max(one.low.z, two.low.z)},
          {std::min(one.high.x, two.high.x), std::min(one.high.y, two.high.y), std::min(one.high.z, two.high.z)}};
      const Vec3 s = both.size();
      if (std::min({s.x, s.y, s.z}) >= -slack) all.add(both);
    }
  }
  return all;
}

/// How far from the line the contact reaches, across it and in its plane.
double reach_across(const WeldLine& line, const Box3& box, Vec3 normal) {
  if (box.empty()) return 0;
  const Vec3 along = (1 / norm(line.to - line.from)) * (line.to - line.from);
  const Vec3 across = cross(normal, along);
  double most = 0;
  for (const Vec3 corner : {box.low, box.high}) most = std::max(most, std::abs(dot(corner - line.from, across)));
  return most;
}

}  // namespace

double welded_thickness_mm(const Part& part) {
  if (const auto* flat = std::get_if<Flat>(&part.form)) return flat->thickness_mm;
  if (const auto* member = std::get_if<Member>(&part.form)) return member->section.thickness_mm;
  return 0;
}

EdgeBearing bearing_of(const Plan& plan, std::size_t joint, InstanceId of, const WeldLine& line) {
  const Joint& at = plan.joints[joint];
  const Box3 box = contact(plan, at);
  if (box.empty()) return {};
  const Vec3 along = (1 / norm(line.to - line.from)) * (line.to - line.from);
  const Vec3 across = cross(at.normal, along);
  EdgeBearing bearing;
  for (const Vec3 corner : {box.low, box.high}) {
    const double reach = dot(corner - line.from, across);
    if (std::abs(reach) > norm(bearing.reach)) bearing.reach = reach * across;
  }
  Box3 own;
  const Instance& part = plan.instances[of];
  for (const Box3& b : boxes_of(plan.parts[part.part], part.pose)) own.add(b);
  const double side = dot(own.middle() - box.middle(), at.normal);
  bearing.press = (side < 0 ? -1.0 : 1.0) * at.normal;
  return bearing;
}

JointGroup joint_group(const Plan& plan, const Seams& seams, InstanceId of, const std::vector<std::size_t>& joints) {
  JointGroup group;
  group.of = of;
  group.joints = joints;
  for (const std::size_t j : joints) {
    const Joint& joint = plan.joints[j];
    group.others.push_back(joint.a == of ? joint.b : joint.a);
    if (joint.kind != JointKind::weld) group.known = false;
    if (std::find(seams.undecided.begin(), seams.undecided.end(), j) != seams.undecided.end()) group.known = false;
    for (const InstanceId id : {joint.a, joint.b}) take_weaker(group, plan.parts[plan.instances[id].part]);
  }
  for (const Seam& seam : seams.all) {
    if (holds(seam) && std::find(joints.begin(), joints.end(), seam.joint) != joints.end()) {
      add_lines(seam, group.lines);
    }
  }
  if (group.lines.size() == 1 && joints.size() == 1) {
    const Joint& joint = plan.joints[joints.front()];
    group.pry_mm = reach_across(group.lines.front(), contact(plan, joint), joint.normal);
  }
  return group;
}

void add_stretch(const Plan& plan, JointGroup& group, std::size_t joint, const WeldLine& line) {
  const Joint& at = plan.joints[joint];
  group.pry_mm = 0;
  group.lines.push_back(line);
  if (std::find(group.joints.begin(), group.joints.end(), joint) != group.joints.end()) return;
  group.joints.push_back(joint);
  group.others.push_back(at.a == group.of ? at.b : at.a);
  for (const InstanceId id : {at.a, at.b}) take_weaker(group, plan.parts[plan.instances[id].part]);
}

std::string key_of_welds(const Plan& plan, const JointGroup& group) {
  const std::size_t rule = plan.joints[group.joints.front()].weld_rule;
  return rule < plan.weld_rules.size() ? plan.weld_rules[rule].key : plan.instances[group.of].key;
}

}  // namespace fitup::loads

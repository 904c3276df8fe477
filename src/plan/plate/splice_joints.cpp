// Which of a plate's joints belong to which of its pieces.
// Entry: finish_splices.
#include <algorithm>
#include <set>

#include "plan/face_axes.h"
#include "plan/plate/splice.h"
#include "plan/plate/splice_strips.h"

namespace fitup::plan {

namespace plate {

namespace {

constexpr double beyond_mm = 1;  // the splice: what ends nearer to it is no neighbour of the piece there

}  // namespace

bool lies_on(const std::vector<Box3>& boxes, Box3 plate, const Splice& splice, bool low, double gap_mm) {
  along(low ? plate.high : plate.low, splice.axis) = splice.at;
  return std::any_of(boxes.begin(), boxes.end(), [&](const Box3& b) {
    const double beyond = low ? splice.at - along(b.low, splice.axis) : along(b.high, splice.axis) - splice.at;
    return beyond >= beyond_mm && meets(b, plate, gap_mm + tolerance::contact_mm);
  });
}

}  // namespace plate

namespace {

std::vector<Box3> boxes_of(const Plan& plan, InstanceId id) {
  const Instance& instance = plan.instances[id];
  return plate::boxes_of(plan.parts[instance.part], instance.pose);
}

/// The high piece, what was cut of it again, and the strips behind the joint.
std::set<InstanceId> beyond(const std::vector<plate::Splice>& splices, std::size_t which) {
  std::set<InstanceId> all{splices[which].high};
  for (std::size_t i = which + 1; i < splices.size(); ++i) {
    if (all.contains(splices[i].low)) all.insert(splices[i].high);
  }
  all.insert(splices[which].strips.begin(), splices[which].strips.end());
  return all;
}

void finish(Plan& plan, const std::vector<plate::Splice>& splices, std::size_t which) {
  const plate::Splice& splice = splices[which];
  plan.instances[splice.low].name = splice.low_name;
  Box3 low;
  for (const Box3& b : boxes_of(plan, splice.low)) low.add(b);
  const std::set<InstanceId> own_pieces = beyond(splices, which);
  const auto own = [&](InstanceId id) { return own_pieces.contains(id); };
  const auto first = std::find_if(plan.joints.begin(), plan.joints.end(), [&](const Joint& j) {
    return j.kind == JointKind::weld && (j.a == splice.low || j.b == splice.low);
  });
  const std::size_t rule = first == plan.joints.end() ? 0 : first->weld_rule;
  for (Joint& j : plan.joints) {
    if (own(j.a) || own(j.b)) j.weld_rule = rule;
  }
  std::erase_if(plan.joints, [&](const Joint& j) {
    if (j.a != splice.low && j.b != splice.low) return false;
    const InstanceId other = j.a == splice.low ? j.b : j.a;
    return !own(other) && !plate::lies_on(boxes_of(plan, other), low, splice, true, j.largest_gap_mm);
  });
}

}  // namespace

void finish_splices(Plan& plan, const std::vector<plate::Splice>& splices) {
  for (std::size_t i = 0; i < splices.size(); ++i) finish(plan, splices, i);
}

}  // namespace fitup::plan

// In which order the joints of a welded step are tacked and welded.
// Entry: weld_order, place_words.

#include "bench/seam_order.h"

#include <algorithm>
#include <map>
#include <set>

namespace fitup::bench {
namespace {

int turn_of(Role role) {
  switch (role) {
    case Role::ring_member:
    case Role::wall:
    case Role::upright: return 0;
    case Role::rib:
    case Role::rail:
    case Role::cross_bar:
    case Role::brace:
    case Role::gusset:
    case Role::landing:
    case Role::bearer: return 1;
    default: return 2;
  }
}

Vec3 middle_of(const Seams& seams, const std::vector<std::size_t>& all) {
  Vec3 sum;
  for (const std::size_t i : all) sum = sum + 0.5 * (seams.all[i].from + seams.all[i].to);
  return (1.0 / static_cast<double>(all.size())) * sum;
}

std::string third(double share, std::string_view low, std::string_view high) {
  if (share < 1.0 / 3) return std::string(low);
  return share > 2.0 / 3 ? std::string(high) : std::string();
}

}  // namespace

std::vector<WeldJoint> weld_order(const Plan& plan, const Seams& seams, const std::vector<InstanceId>& added,
                                  const std::vector<InstanceId>& there) {
  const std::set<InstanceId> now(added.begin(), added.end());
  std::set<InstanceId> by_then(there.begin(), there.end());
  by_then.insert(added.begin(), added.end());
  std::map<std::size_t, std::vector<std::size_t>> by_joint;
  for (std::size_t i = 0; i < seams.all.size(); ++i) {
    const Seam& seam = seams.all[i];
    const Joint& joint = plan.joints[seam.joint];
    const bool of_step = now.count(joint.a) + now.count(joint.b) > 0;
    if (!of_step || !by_then.count(joint.a) || !by_then.count(joint.b) || seam.state == SeamState::left_free) continue;
    by_joint[seam.joint].push_back(i);
  }
  std::vector<WeldJoint> left;
  for (auto& [index, own] : by_joint) {
    const Joint& joint = plan.joints[index];
    const auto role = [&](InstanceId id) { return plan.parts[plan.instances[id].part].role; };
    const Vec3 middle = middle_of(seams, own);
    left.push_back(
        {joint.a, joint.b, middle, std::move(own), std::max(turn_of(role(joint.a)), turn_of(role(joint.b)))});
  }
  std::vector<WeldJoint> order;
  while (!left.empty()) {
    const auto next = std::max_element(left.begin(), left.end(), [&](const WeldJoint& x, const WeldJoint& y) {
      if (x.turn != y.turn) return x.turn > y.turn;  // the lowest turn is the largest
      if (order.empty()) return false;
      return norm(x.middle - order.back().middle) < norm(y.middle - order.back().middle) - 1e-6;
    });
    order.push_back(std::move(*next));
    left.erase(next);
  }
  return order;
}

std::string place_words(const Plan& plan, Vec3 at) {
  if (plan.frames.empty()) return {};
  const PlacedFrame* nearest = &plan.frames.front();
  for (const PlacedFrame& frame : plan.frames) {
    if (norm(frame.space.middle() - at) < norm(nearest->space.middle() - at)) nearest = &frame;
  }
  const Vec3 low = nearest->space.low;
  const Vec3 size = nearest->space.size();
  std::string words;
  for (const std::string& word :
       {third((at.x - low.x) / size.x, "left", "right"), third((at.y - low.y) / size.y, "front", "back"),
        third((at.z - low.z) / size.z, "bottom", "top")}) {
    if (!word.empty()) words += (words.empty() ? "" : " ") + word;
  }
  if (words.empty()) words = "middle";
  return plan.frames.size() > 1 ? nearest->box + ", " + words : words;
}

}  // namespace fitup::bench

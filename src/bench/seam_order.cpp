// In which order the joints of a welded step are tacked and welded.
// Entry: weld_order, tack_stages, place_words.

#include "bench/seam_order.h"

#include <algorithm>
#include <map>
#include <numeric>
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

const PlacedFrame* nearest_frame(const Plan& plan, Vec3 at) {
  const PlacedFrame* nearest = nullptr;
  for (const PlacedFrame& frame : plan.frames) {
    if (nearest == nullptr || norm(frame.space.middle() - at) < norm(nearest->space.middle() - at)) nearest = &frame;
  }
  return nearest;
}

std::string third(double share, std::string_view low, std::string_view high) {
  if (share < 1.0 / 3) return std::string(low);
  return share > 2.0 / 3 ? std::string(high) : std::string();
}

/// Indices of the joints, those of a lower turn first, each time the one that lies farthest from the last.
template <typename Turn>
std::vector<std::size_t> far_apart(const std::vector<WeldJoint>& joints, const Turn& turn) {
  std::vector<std::size_t> left(joints.size());
  std::iota(left.begin(), left.end(), std::size_t{0});
  std::vector<std::size_t> order;
  while (!left.empty()) {
    const auto next = std::max_element(left.begin(), left.end(), [&](std::size_t x, std::size_t y) {
      const int turn_x = turn(joints[x]);
      const int turn_y = turn(joints[y]);
      if (turn_x != turn_y) return turn_x > turn_y;  // the lowest turn is the largest
      if (order.empty()) return false;
      const Vec3 last = joints[order.back()].middle;
      return norm(joints[x].middle - last) < norm(joints[y].middle - last) - 1e-6;
    });
    order.push_back(*next);
    left.erase(next);
  }
  return order;
}

/// At which stage a joint is tacked.
class StageOf {
 public:
  StageOf(const Plan& plan, const std::vector<WeldJoint>& joints) : plan_(plan) {
    for (const SetUp& one : plan.set_up) set_up_.emplace(one.part, static_cast<int>(set_up_.size()));
    std::vector<const WeldJoint*> on_others;
    for (const WeldJoint& joint : joints) {
      if (own_stage(joint) == last) {
        on_others.push_back(&joint);
      } else {
        levels_.insert({{joint.a, 0}, {joint.b, 0}});
      }
    }
    find_levels(std::move(on_others));
  }

  [[nodiscard]] int operator()(const WeldJoint& joint) const {
    const int own = own_stage(joint);
    const int least = std::min(level(joint.a), level(joint.b));
    return own < last || least == unheld ? own : last + least;
  }

  [[nodiscard]] static bool is_of_frame(int stage) { return stage < between; }

  [[nodiscard]] std::string words(int stage) const {
    switch (stage) {
      case bottom_ring: return "the bottom ring, flat on the bench";
      case top_ring: return "the top ring, likewise";
      case uprights: return "the uprights on the bottom ring";
      case on_uprights: return "the top ring on the uprights";
      case between: return "what lies between the members";
      case last: return "plates and what stands on the frame";
      default: break;
    }
    for (const auto& [part, turn] : set_up_) {
      if (shell + turn == stage)
        return plan_.parts[plan_.instances[part].part].mark + ", " + plan_.instances[part].name;
    }
    return "what stands on these";
  }

 private:
  static constexpr int bottom_ring = 0;
  static constexpr int top_ring = 1;
  static constexpr int uprights = 2;
  static constexpr int on_uprights = 3;
  static constexpr int shell = 10;  // and so many more as the plate comes late
  static constexpr int between = 10000;
  static constexpr int last = 10001;  // and so many more as parts lie between
  static constexpr int unheld = 100;

  [[nodiscard]] int own_stage(const WeldJoint& joint) const {
    const auto a = set_up_.find(joint.a);
    const auto b = set_up_.find(joint.b);
    if (a != set_up_.end() && b != set_up_.end()) return shell + std::max(a->second, b->second);
    const int rings = of_ring(joint.a) + of_ring(joint.b);
    // On a base ring, once that is closed.
    if (rings == 1 && a != set_up_.end()) return shell + a->second;
    if (rings == 1 && b != set_up_.end()) return shell + b->second;
    if (joint.turn > 0 || rings == 0) return joint.turn > 1 ? last : between;
    const bool top = is_high(joint.middle);
    if (rings == 2) return top ? top_ring : bottom_ring;
    return top ? on_uprights : uprights;
  }

  [[nodiscard]] int level(InstanceId id) const {
    const auto found = levels_.find(id);
    return found == levels_.end() ? unheld : found->second;
  }

  /// How many parts lie between one and the frame: what stands on a plate waits for the plate.
  void find_levels(std::vector<const WeldJoint*> joints) {
    for (int now = 0; !joints.empty() && now < unheld; ++now) {
      std::vector<InstanceId> next;
      std::erase_if(joints, [&](const WeldJoint* joint) {
        const int least = std::min(level(joint->a), level(joint->b));
        if (least > now) return false;
        next.insert(next.end(), {joint->a, joint->b});
        return true;
      });
      for (const InstanceId id : next) levels_.emplace(id, now + 1);
    }
  }
  [[nodiscard]] int of_ring(InstanceId id) const {
    return plan_.parts[plan_.instances[id].part].role == Role::ring_member ? 1 : 0;
  }

  [[nodiscard]] bool is_high(Vec3 at) const {
    const PlacedFrame* frame = nearest_frame(plan_, at);
    return frame != nullptr && at.z > frame->space.middle().z;
  }

  const Plan& plan_;
  std::map<InstanceId, int> set_up_;
  std::map<InstanceId, int> levels_;
};

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
  const auto order = far_apart(left, [](const WeldJoint& joint) { return joint.turn; });
  std::vector<WeldJoint> sorted;
  for (const std::size_t i : order) sorted.push_back(std::move(left[i]));
  return sorted;
}

std::vector<TackStage> tack_stages(const Plan& plan, const std::vector<WeldJoint>& joints) {
  const StageOf stage_of(plan, joints);
  const auto stage = [&](const WeldJoint& joint) { return stage_of(joint); };
  std::vector<TackStage> stages;
  int last = -1;
  for (const std::size_t i : far_apart(joints, stage)) {
    const int now = stage(joints[i]);
    if (now != last) stages.push_back({stage_of.words(now), {}, stage_of.is_of_frame(now)});
    stages.back().joints.push_back(i);
    last = now;
  }
  return stages;
}

std::string place_words(const Plan& plan, Vec3 at) {
  const PlacedFrame* nearest = nearest_frame(plan, at);
  if (nearest == nullptr) return {};
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

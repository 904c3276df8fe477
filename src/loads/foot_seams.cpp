// Forces of bolts to the seams of their feet and of the doublers under them.
// Entry: worst_foot_seams.
#include "loads/foot_seams.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <optional>

#include "loads/hold_down.h"
#include "loads/thrown.h"

namespace fitup::loads {

namespace {

/// Feet and lugs: what the box does to each bolt goes through the seams of the foot that the bolt stands in.
class BoltsOfFeet {
 public:
  BoltsOfFeet(const Plan& plan, const Seams& seams, const Weights& weights)
      : plan_(plan), seams_(seams), whole_(weights.whole(LoadState::loaded)) {}

  void run() {
    for (const Pattern& pattern : plan_.patterns) {
      if (!pattern.key.ends_with(".feet") && !pattern.key.ends_with(".lugs")) continue;
      std::vector<const PatternHole*> holes;
      for (const PatternBody& body : pattern.bodies) {
        for (const PatternHole& h : body.holes) holes.push_back(&h);
      }
      if (!holes.empty()) look(holes);
    }
  }

  [[nodiscard]] const FootSeams& worst() const { return worst_; }

 private:
  void look(const std::vector<const PatternHole*>& holes) {
    std::vector<Vec3> at;
    Vec3 middle;
    for (const PatternHole* h : holes) {
      at.push_back(h->at);
      middle = middle + (1 / static_cast<double>(holes.size())) * h->at;
    }
    const Vec3 along = holes.front()->along;
    const Vec3 normal = dot(whole_.centre - middle, along) >= 0 ? along : -1 * along;
    const double n = whole_.kg * gravity;
    look(holes, at, normal, n * axis::minus_z, LoadKind::standing, "standing or hanging");
    for (std::size_t side = 0; side < ways.size(); ++side) {
      const auto& g = plan_.load_rules.thrown_g[side];
      if (!g) continue;
      look(holes, at, normal, n * (*g * ways[side] + axis::minus_z), LoadKind::thrown,
           fmt::format("thrown to the {} with {} g", side_words[side], *g));
    }
  }

  void look(const std::vector<const PatternHole*>& holes, const std::vector<Vec3>& at, Vec3 normal, Vec3 force,
            LoadKind kind, const std::string& words) {
    const std::vector<Vec3> forces = forces_on_bolts(at, normal, force, whole_.centre);
    for (std::size_t i = 0; i < holes.size(); ++i) {
      // What presses the foot onto its base goes past the seams.
      const Vec3 pressed = std::min(0.0, dot(forces[i], normal)) * normal;
      const Vec3 carried = forces[i] - pressed;
      const InstanceId foot = holes[i]->plate;
      take(worst_.mounts, group_of(foot, foot), plan_.load_rules, kind, words, carried, at[i], {});
      const auto doubler = doubler_under(foot);
      if (!doubler) continue;
      take(worst_.doublers, group_of(*doubler, foot), plan_.load_rules, kind,
           fmt::format("{}, with all that the bolt of {} does", words, plan_.instances[foot].name), carried, at[i], {});
    }
  }

  [[nodiscard]] std::optional<InstanceId> doubler_under(InstanceId foot) const {
    for (const Joint& joint : plan_.joints) {
      if (joint.kind != JointKind::weld || (joint.a != foot && joint.b != foot)) continue;
      const InstanceId other = joint.a == foot ? joint.b : joint.a;
      if (plan_.parts[plan_.instances[other].part].role == Role::doubler) return other;
    }
    return std::nullopt;
  }

  /// All that holds it; of a doubler all but the foot that it carries.
  [[nodiscard]] const JointGroup& group_of(InstanceId held, InstanceId foot) {
    const auto known = groups_.find(held);
    if (known != groups_.end()) return known->second;
    std::vector<std::size_t> joints;
    for (std::size_t j = 0; j < plan_.joints.size(); ++j) {
      const Joint& joint = plan_.joints[j];
      if (joint.kind != JointKind::weld || (joint.a != held && joint.b != held)) continue;
      if (held == foot || (joint.a != foot && joint.b != foot)) joints.push_back(j);
    }
    return groups_.emplace(held, joint_group(plan_, seams_, held, joints)).first->second;
  }

  const Plan& plan_;
  const Seams& seams_;
  const MassAt& whole_;
  std::map<InstanceId, JointGroup> groups_;
  FootSeams worst_;
};

}  // namespace

FootSeams worst_foot_seams(const Plan& plan, const Seams& seams, const Weights& weights) {
  BoltsOfFeet feet(plan, seams, weights);
  feet.run();
  return feet.worst();
}

}  // namespace fitup::loads

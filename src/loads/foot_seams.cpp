// Forces of bolts to the seams of their feet.
// Entry: worst_foot_seam.
#include "loads/foot_seams.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "loads/hold_down.h"
#include "loads/thrown.h"

namespace fitup::loads {

namespace {

/// Feet and lugs: what the box does to each bolt goes through the seams of the foot that the bolt stands in.
class FootSeams {
 public:
  FootSeams(const Plan& plan, const Seams& seams, const Weights& weights)
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

  [[nodiscard]] const WorstSeam& worst() const { return worst_; }

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
      take(worst_, group_of(holes[i]->plate), plan_.load_rules, kind, words, forces[i] - pressed, at[i], {});
    }
  }

  [[nodiscard]] const JointGroup& group_of(InstanceId foot) {
    const auto known = groups_.find(foot);
    if (known != groups_.end()) return known->second;
    std::vector<std::size_t> joints;
    for (std::size_t j = 0; j < plan_.joints.size(); ++j) {
      const Joint& joint = plan_.joints[j];
      if (joint.kind == JointKind::weld && (joint.a == foot || joint.b == foot)) joints.push_back(j);
    }
    return groups_.emplace(foot, joint_group(plan_, seams_, foot, joints)).first->second;
  }

  const Plan& plan_;
  const Seams& seams_;
  const MassAt& whole_;
  std::map<InstanceId, JointGroup> groups_;
  WorstSeam worst_;
};

}  // namespace

WorstSeam worst_foot_seam(const Plan& plan, const Seams& seams, const Weights& weights) {
  FootSeams feet(plan, seams, weights);
  feet.run();
  return feet.worst();
}

}  // namespace fitup::loads

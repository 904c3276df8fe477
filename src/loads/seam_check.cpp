// Forces of the space frame and of bolts to the seams that carry them.
// Entry: check_seams.
#include "loads/seam_check.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>

#include "loads/hold_down.h"
#include "loads/joint_groups.h"
#include "loads/lift.h"

namespace fitup::loads {

namespace {

constexpr double gravity = 9.80665;  // m/s2
constexpr const char* name = "seams";
constexpr std::array<Vec3, 6> ways{axis::minus_y, axis::y, axis::minus_x, axis::x, axis::z, axis::minus_z};
constexpr std::array<const char*, 6> side_words{"front", "back", "left", "right", "top", "bottom"};

const Part& part_of(const Plan& plan, InstanceId id) { return plan.parts[plan.instances[id].part]; }

/// The group that uses most of what it may carry.
struct Worst {
  double utilisation = -1;
  GroupStress stress;
  WeldLimit limit;
  double force_n = 0;
  double moment_nmm = 0;
  JointGroup group;
  std::string words;  // the case's
};

/// What turns the part about its one seam is held by the seam and by what bears beside it, at most as far away as they
/// touch.
void pry(GroupStress& stress, const JointGroup& group) {
  const WeldLine& line = group.lines.front();
  stress.mpa += stress.not_taken_nmm / group.pry_mm / (line.throat_mm * norm(line.to - line.from));
  stress.not_taken_nmm = 0;
}

void take(Worst& worst, const JointGroup& group, const LoadRules& rules, LoadKind kind, const std::string& words,
          Vec3 force, Vec3 at, Vec3 moment) {
  auto stress = throat_stress(group.lines, force, at, moment);
  if (!stress || !group.weaker) return;
  if (group.pry_mm > 0) pry(*stress, group);
  const WeldLimit limit = weld_limit(rules, *group.weaker, kind);
  const double utilisation = stress->mpa / limit.mpa;
  if (utilisation <= worst.utilisation) return;
  worst = {utilisation, *stress, limit, norm(force), norm(moment), group, words};
}

/// The frame's joints: each member cut free at each node.
class FrameSeams {
 public:
  FrameSeams(const Plan& plan, const Seams& seams, const FrameModel& model, const std::vector<FrameCase>& cases)
      : plan_(plan), model_(model), cases_(cases) {
    std::map<std::pair<InstanceId, std::size_t>, std::vector<std::size_t>> joints;
    for (const auto& [joint, node] : model.node_of_joint) {
      joints[{plan.joints[joint].a, node}].push_back(joint);
      joints[{plan.joints[joint].b, node}].push_back(joint);
    }
    for (const auto& [where, all] : joints) {
      JointGroup group = joint_group(plan, seams, where.first, all);
      if (group.known && !group.lines.empty()) groups_.emplace(where, std::move(group));
    }
  }

  void run() {
    for (const FrameCase& c : cases_) {
      const auto solver = FrameSolver::factor(c.frame);
      if (!solver) return;
      look(c, *solver, solver->solve(c.load));
    }
  }

  /// By case, in their order, and whether of rails.
  [[nodiscard]] const std::map<std::pair<std::size_t, bool>, Worst>& worst() const { return worst_; }

 private:
  struct Net {
    Vec3 force;
    Vec3 moment;  // about the node
  };

  void look(const FrameCase& c, const FrameSolver& solver, const FrameResult& result) {
    std::map<std::pair<InstanceId, std::size_t>, Net> nets;
    for (std::size_t p = 0; p < model_.pieces.size(); ++p) {
      const EndForces ends = solver.on_member(c.load, result, p);
      const FrameMember& m = model_.frame.members[p];
      for (const auto& [end, node] : {std::pair<std::size_t, std::size_t>{0, m.a}, {1, m.b}}) {
        Net& net = nets[{model_.pieces[p].of, node}];
        net.force = net.force + ends.force[end];
        net.moment = net.moment + ends.moment[end];
      }
    }
    for (const auto& [where, group] : groups_) {
      const auto net = nets.find(where);
      if (net == nets.end()) continue;
      const bool rail = is_of_rails(group);
      // As with the rails themselves: what twists the frame as it hangs is held by plates that the model leaves out.
      if (rail && !c.level) continue;
      take(worst_[{first_of(c), rail}], group, plan_.load_rules, c.kind, c.words, net->second.force,
           model_.frame.nodes[where.second], net->second.moment);
    }
  }

  /// Cases of the same words are one.
  [[nodiscard]] std::size_t first_of(const FrameCase& c) const {
    const auto same = [&c](const FrameCase& other) { return other.words == c.words; };
    return static_cast<std::size_t>(std::find_if(cases_.begin(), cases_.end(), same) - cases_.begin());
  }

  [[nodiscard]] bool is_of_rails(const JointGroup& group) const {
    const auto is_rail = [this](InstanceId id) { return part_of(plan_, id).role == Role::rail; };
    return is_rail(group.of) || std::all_of(group.others.begin(), group.others.end(), is_rail);
  }

  const Plan& plan_;
  const FrameModel& model_;
  const std::vector<FrameCase>& cases_;
  std::map<std::pair<InstanceId, std::size_t>, JointGroup> groups_;
  std::map<std::pair<std::size_t, bool>, Worst> worst_;
};

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

  [[nodiscard]] const Worst& worst() const { return worst_; }

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
  Worst worst_;
};

bool is_stiffened(const Plan& plan) {
  return std::any_of(plan.parts.begin(), plan.parts.end(), [](const Part& p) {
    return p.role == Role::face_plate || p.role == Role::brace || p.role == Role::gusset;
  });
}

std::string key_of_welds(const Plan& plan, const JointGroup& group) {
  const std::size_t rule = plan.joints[group.joints.front()].weld_rule;
  return rule < plan.weld_rules.size() ? plan.weld_rules[rule].key : plan.instances[group.of].key;
}

Finding finding_of(const Plan& plan, const Worst& w, const char* what, bool may_be_stiffened) {
  Finding f;
  f.check = name;
  f.value = w.stress.mpa;
  f.limit = w.limit.mpa;
  f.unit = "MPa";
  f.source = w.limit.source;
  f.parts = {label_of(plan, w.group.of)};
  for (const InstanceId other : std::set<InstanceId>(w.group.others.begin(), w.group.others.end())) {
    f.parts.push_back(label_of(plan, other));
  }
  f.at = w.stress.at;
  f.key = key_of_welds(plan, w.group);
  f.place = plan.instances[w.group.of].place;
  const bool over = w.utilisation > 1;
  f.verdict = !over ? Verdict::pass : may_be_stiffened ? Verdict::not_checked : Verdict::fail;
  f.message = fmt::format(
      "{} carries the most of the seams of {}: {:.0f} mm of seam with {:.0f} N and {:.1f} Nm, {:.0f} MPa of {:.0f} MPa "
      "in "
      "the throat, {:.0f} percent, {}. As elastic lines between rigid parts",
      plan.instances[w.group.of].name, what, w.stress.length_mm, w.force_n, w.moment_nmm / 1000, w.stress.mpa,
      w.limit.mpa, 100 * w.utilisation, w.words);
  if (w.stress.not_taken_nmm > 0.05 * w.moment_nmm && w.stress.not_taken_nmm > 1) {
    f.message +=
        fmt::format("; {:.1f} Nm about the one line that these seams lie on are left to the contact beside them",
                    w.stress.not_taken_nmm / 1000);
  }
  if (over && may_be_stiffened) {
    f.message +=
        "; it is more without the plates, braces or gussets that are welded on, and what these take of it is not "
        "checked";
  } else if (over) {
    f.message += "; a longer seam (a wider part) or a larger leg (welds.leg) mends it";
  }
  return f;
}

/// The fillet that is smallest beside what it should be.
class LeastSizes {
 public:
  LeastSizes(const Plan& plan, const Seams& seams) : plan_(plan) {
    for (const Seam& seam : seams.all) {
      if (holds(seam) && seam.kind == SeamKind::fillet) look(seam);
    }
  }

  [[nodiscard]] std::vector<Finding> findings() const {
    std::vector<Finding> all;
    for (const auto& [shall, worst] : worst_) {
      if (worst.seam != nullptr) all.push_back(finding(worst, shall));
    }
    return all;
  }

 private:
  struct Small {
    const Seam* seam = nullptr;
    LeastSize least;
    std::size_t count = 0;
  };

  void look(const Seam& seam) {
    const Joint& joint = plan_.joints[seam.joint];
    const Part& a = part_of(plan_, joint.a);
    const Part& b = part_of(plan_, joint.b);
    const double ta = welded_thickness_mm(a), tb = welded_thickness_mm(b);
    const double thinner = ta <= 0 ? tb : tb <= 0 ? ta : std::min(ta, tb);
    if (thinner <= 0) return;
    const auto strength = strength_of(a.material, thinner);
    if (strength && strength->is_aluminium()) return;
    const LeastSize least = least_size(plan_.load_rules, thinner);
    constexpr double slack_mm = 1e-6;
    if (seam.size_mm >= least.leg_mm - slack_mm) return;
    Small& worst = worst_[least.shall];
    ++worst.count;
    if (worst.seam != nullptr && seam.size_mm / least.leg_mm >= worst.seam->size_mm / worst.least.leg_mm) return;
    worst.seam = &seam;
    worst.least = least;
  }

  [[nodiscard]] Finding finding(const Small& worst, bool shall) const {
    const Joint& joint = plan_.joints[worst.seam->joint];
    Finding f;
    f.check = "seam-size";
    f.verdict = shall ? Verdict::fail : Verdict::marginal;
    f.value = worst.seam->size_mm;
    f.limit = worst.least.leg_mm;
    f.unit = "mm";
    f.source = worst.least.source;
    f.parts = {label_of(plan_, joint.a), label_of(plan_, joint.b)};
    f.at = 0.5 * (worst.seam->from + worst.seam->to);
    f.key = key_of_welds(plan_, {joint.a, {worst.seam->joint}, {}, {}, {}, true});
    f.place = plan_.instances[joint.a].place;
    f.message = fmt::format(
        "{} and {} are joined by a fillet with a leg of {:.1f} mm, less than the {:.1f} mm for their thickness; {} "
        "seams "
        "are as small or smaller. A larger leg (welds.leg), or more room where it is small for want of it, mends it",
        plan_.instances[joint.a].name, plan_.instances[joint.b].name, worst.seam->size_mm, worst.least.leg_mm,
        worst.count);
    return f;
  }

  const Plan& plan_;
  std::map<bool, Small> worst_;
};

}  // namespace

std::vector<Finding> check_seams(const Plan& plan, const Seams& seams, const Weights& weights, const FrameModel* model,
                                 const std::vector<FrameCase>& cases) {
  std::vector<Finding> all;
  if (model != nullptr) {
    FrameSeams frame(plan, seams, *model, cases);
    frame.run();
    for (const auto& [kind, worst] : frame.worst()) {
      if (worst.utilisation < 0) continue;
      all.push_back(
          finding_of(plan, worst, kind.second ? "rails" : "the frame's joints", !kind.second && is_stiffened(plan)));
    }
  }
  FootSeams feet(plan, seams, weights);
  feet.run();
  if (feet.worst().utilisation >= 0) all.push_back(finding_of(plan, feet.worst(), "feet and lugs", false));
  for (Finding& f : LeastSizes(plan, seams).findings()) all.push_back(std::move(f));
  return all;
}

}  // namespace fitup::loads

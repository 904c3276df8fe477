// Forces of the space frame and of bolts to the seams that carry them.
// Entry: check_seams.
#include "loads/seam_check.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>

#include "loads/amounts.h"
#include "loads/cover_seams.h"
#include "loads/edge_seam.h"
#include "loads/hold_down.h"
#include "loads/joint_groups.h"
#include "loads/lift.h"
#include "loads/seam_corners.h"
#include "loads/seam_sizes.h"
#include "loads/thrown.h"

namespace fitup::loads {

namespace {

// Along sheet a seam shares its load over so much: it yields before it breaks (EN 1993-1-8, 4.9, from memory).
constexpr double shared_over_mm = 2 * least_seam_mm;

const Part& part_of(const Plan& plan, InstanceId id) { return plan.parts[plan.instances[id].part]; }

/// The group that uses most of what it may carry.
struct Worst {
  double utilisation = -1;
  GroupStress stress;
  WeldLimit limit;
  double force_n = 0;
  double moment_nmm = 0;  // about the seams' middle; of sheet about its seam
  JointGroup group;
  std::string words;               // the case's
  std::optional<EdgeStress> edge;  // of sheet
};

/// What turns the part about its one seam is held by the seam and by what bears beside it, at most as far away as they
/// touch.
void pry(GroupStress& stress, const JointGroup& group) {
  const WeldLine& line = group.lines.front();
  stress.mpa += stress.not_taken_nmm / group.pry_mm / line.area_mm2();
  stress.not_taken_nmm = 0;
}

/// Whether it is the worst so far.
bool take(Worst& worst, const JointGroup& group, const LoadRules& rules, LoadKind kind, const std::string& words,
          Vec3 force, Vec3 at, Vec3 moment) {
  auto stress = throat_stress(group.lines, force, at, moment);
  if (!stress || !group.weaker) return false;
  if (group.pry_mm > 0) pry(*stress, group);
  const WeldLimit limit = weld_limit(rules, *group.weaker, kind);
  const double utilisation = stress->mpa / limit.mpa;
  if (utilisation <= worst.utilisation) return false;
  const Vec3 about_middle = moment + cross(at - middle_of(group.lines), force);
  worst = {utilisation, *stress, limit, norm(force), norm(about_middle), group, words, std::nullopt};
  return true;
}

/// Likewise of a sheet's edge.
void take_edge(Worst& worst, const JointGroup& group, const EdgeStress& edge, const LoadRules& rules,
               const FrameCase& of, double force_n) {
  if (!group.weaker) return;
  const WeldLimit limit = weld_limit(rules, *group.weaker, of.kind);
  const double utilisation = edge.mpa() / limit.mpa;
  if (utilisation <= worst.utilisation) return;
  worst = {utilisation, edge.by_force, limit, force_n, edge.moment_nmm, group, of.words, edge};
  worst.stress.mpa = edge.mpa();
}

/// What is looked at apart.
enum class Seamed { members, rails, sheet };

/// The frame's joints: each member cut free at each node, and each panel of sheet at each node that holds it.
class FrameSeams {
 public:
  FrameSeams(const Plan& plan, const Seams& seams, const FrameModel& model, const std::vector<SolvedCase>& cases)
      : plan_(plan), model_(model), cases_(cases) {
    std::map<Where, std::vector<std::size_t>> joints;
    for (const auto& [joint, node] : model.node_of_joint) {
      joints[{plan.joints[joint].a, node}].push_back(joint);
      joints[{plan.joints[joint].b, node}].push_back(joint);
    }
    for (const auto& [where, all] : joints) groups_.emplace(where, joint_group(plan, seams, where.first, all));
    std::set<Where> own;
    for (const auto& [where, group] : groups_) own.insert(where);
    at_corner_ = joints_beside(model, own, shared_over_mm);
    for (const PanelTie& tie : model.ties) {
      const auto corner = at_corner_.find({tie.member, tie.node});
      if (corner != at_corner_.end()) add_stretch(plan, groups_.at(corner->second), tie.joint, tie.seam);
      tied_[{tie.plate, tie.node}].push_back(&tie);
    }
    gather_short_stretches();
    for (const auto& [where, ties] : tied_) {
      JointGroup& sheet = sheets_[gathered_.at(where)];
      sheet.of = where.first;
      for (const PanelTie* tie : ties) {
        add_stretch(plan, sheet, tie->joint, tie->seam);
        bearings_.try_emplace(gathered_.at(where), bearing_of(plan, tie->joint, where.first, tie->seam));
      }
    }
    std::erase_if(groups_, [this](const auto& g) {
      return !g.second.known || g.second.lines.empty() || is_seen_from_the_others(g.first, g.second);
    });
  }

  void run() {
    for (const SolvedCase& s : cases_) {
      look_at_members(s);
      look_at_sheet(s);
    }
  }

  /// By case, in their order.
  [[nodiscard]] const std::map<std::pair<std::size_t, Seamed>, Worst>& worst() const { return worst_; }

 private:
  using Where = AtNode;
  struct Net {
    Vec3 force, moment;  // about the node
  };

  // A short stretch carries together with the nearest of the same sheet: a peak at a corner is shared.
  void gather_short_stretches() {
    std::vector<std::pair<double, Where>> by_length;
    std::map<Where, double> length;
    for (const auto& [where, ties] : tied_) {
      for (const PanelTie* tie : ties) length[where] += norm(tie->seam.to - tie->seam.from);
      by_length.emplace_back(length.at(where), where);
      gathered_[where] = where;
    }
    std::sort(by_length.begin(), by_length.end());
    for (const auto& [own, where] : by_length) {
      if (length.at(where) >= shared_over_mm) continue;
      const Vec3 at = model_.frame.nodes[where.second];
      std::optional<Where> nearest;
      for (const auto& [other, ties] : tied_) {
        if (other.first != where.first || gathered_.at(other) != other || other == where) continue;
        const auto off = [&](const Where& w) { return norm(model_.frame.nodes[w.second] - at); };
        if (!nearest || off(other) < off(*nearest)) nearest = other;
      }
      if (!nearest) continue;
      for (auto& [from, into] : gathered_) into = into == where ? *nearest : into;
      length[*nearest] += length.at(where);
    }
  }

  // Of what goes on past a node only: what stands on it there goes past the seams of the others, which end on it.
  [[nodiscard]] bool is_seen_from_the_others(const Where& where, const JointGroup& group) const {
    return !ends_at(where.first, where.second) &&
           std::all_of(group.others.begin(), group.others.end(), [&](InstanceId other) {
             return ends_at(other, where.second) || tied_.contains({other, where.second});
           });
  }

  [[nodiscard]] bool ends_at(InstanceId of, std::size_t node) const {
    std::size_t pieces = 0;
    for (std::size_t p = 0; p < model_.pieces.size(); ++p) {
      const FrameMember& m = model_.frame.members[p];
      if (model_.pieces[p].of == of && (m.a == node || m.b == node)) ++pieces;
    }
    return pieces == 1;
  }

  static void add(std::map<Where, Net>& nets, const Where& where, Vec3 force, Vec3 moment) {
    Net& net = nets[where];
    net.force = net.force + force;
    net.moment = net.moment + moment;
  }

  void add_at_corner(std::map<Where, Net>& nets, const Where& where, Vec3 force, Vec3 moment) const {
    const auto corner = at_corner_.find(where);
    if (corner == at_corner_.end()) return;
    const Vec3 off = model_.frame.nodes[where.second] - model_.frame.nodes[corner->second.second];
    add(nets, corner->second, force, moment + cross(off, force));
  }

  void look_at_members(const SolvedCase& s) {
    std::map<Where, Net> nets;
    for (std::size_t p = 0; p < model_.pieces.size(); ++p) {
      const EndForces ends = s.solver->on_member(s.result, p);
      const FrameMember& m = model_.frame.members[p];
      add_at_corner(nets, {model_.pieces[p].of, m.a}, ends.force[0], ends.moment[0]);
      add_at_corner(nets, {model_.pieces[p].of, m.b}, ends.force[1], ends.moment[1]);
    }
    for (const auto& [where, group] : groups_) {
      const bool rail = is_of_rails(group);
      // As with the rails themselves: they are looked at on a level frame.
      if (rail && !s.of->level) continue;
      look(s, rail ? Seamed::rails : Seamed::members, where, group, nets);
    }
  }

  void look_at_sheet(const SolvedCase& s) {
    std::map<Where, Net> nets;
    for (std::size_t p = 0; p < model_.panel_of.size(); ++p) {
      const CornerForces corners = s.solver->on_panel(s.result, p);
      for (std::size_t c = 0; c < corners.force.size(); ++c) {
        const auto into = gathered_.find({model_.panel_of[p], model_.frame.panels[p].nodes[c]});
        if (into == gathered_.end()) continue;
        const Vec3 off = model_.frame.nodes[into->first.second] - model_.frame.nodes[into->second.second];
        add(nets, into->second, corners.force[c], corners.moment[c] + cross(off, corners.force[c]));
      }
    }
    for (const auto& [where, group] : sheets_) {
      const bool rail = part_of(plan_, where.first).role == Role::rail;
      if (rail && !s.of->level) continue;
      look(s, rail ? Seamed::rails : Seamed::sheet, where, group, nets);
    }
  }

  void look(const SolvedCase& s, Seamed what, const Where& where, const JointGroup& group,
            const std::map<Where, Net>& nets) {
    const auto net = nets.find(where);
    if (net == nets.end()) return;
    if (sheets_.contains(where) && &sheets_.at(where) == &group) return look_at_edge(s, what, where, group, net->second);
    take(worst_[{first_of(*s.of), what}], group, plan_.load_rules, s.of->kind, s.of->words, net->second.force,
         model_.frame.nodes[where.second], net->second.moment);
  }

  // By the force of the edge, and by what bends the sheet about it.
  void look_at_edge(const SolvedCase& s, Seamed what, const Where& where, const JointGroup& group, const Net& net) {
    const Vec3 off = model_.frame.nodes[where.second] - middle_of(group.lines);
    const auto edge = edge_stress(group.lines, bearings_.at(where), net.force, net.moment + cross(off, net.force));
    if (edge) take_edge(worst_[{first_of(*s.of), what}], group, *edge, plan_.load_rules, *s.of, norm(net.force));
  }

  /// Cases of the same words are one.
  [[nodiscard]] std::size_t first_of(const FrameCase& c) const {
    const auto same = [&c](const SolvedCase& other) { return other.of->words == c.words; };
    return static_cast<std::size_t>(std::find_if(cases_.begin(), cases_.end(), same) - cases_.begin());
  }

  [[nodiscard]] bool is_of_rails(const JointGroup& group) const {
    const auto is_rail = [this](InstanceId id) { return part_of(plan_, id).role == Role::rail; };
    return is_rail(group.of) || std::all_of(group.others.begin(), group.others.end(), is_rail);
  }

  const Plan& plan_;
  const FrameModel& model_;
  const std::vector<SolvedCase>& cases_;
  std::map<Where, JointGroup> groups_;
  std::map<Where, Where> at_corner_;  // a member's joint with whose seams those at a node carry
  std::map<Where, std::vector<const PanelTie*>> tied_;  // stretches that hold a sheet at a node
  std::map<Where, Where> gathered_;                     // and with which other node's they carry
  std::map<Where, JointGroup> sheets_;
  std::map<Where, EdgeBearing> bearings_;
  std::map<std::pair<std::size_t, Seamed>, Worst> worst_;
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

const char* words_of(Seamed what) {
  if (what == Seamed::members) return "the frame's joints";
  return what == Seamed::rails ? "rails" : "welded plates";
}

std::string words_of(const GroupStress& s) {
  const auto of = [](Vec3 v) { return fmt::format("{}, {}, {}", mpa_words(v.x), mpa_words(v.y), mpa_words(v.z)); };
  return fmt::format("As elastic lines between rigid parts: along x, y and z F / A is {}, and w x r {}", of(s.of_force),
                     of(s.of_moment));
}

Finding finding_of(const Plan& plan, const Worst& w, const char* what) {
  Finding f;
  f.check = "seams";
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
  const bool root_opens = over && w.edge && w.edge->lever == EdgeLever::throat && w.edge->by_force.mpa <= w.limit.mpa;
  // What the sheet does about the seam is not needed for balance where what is round it takes that over.
  const bool beyond = w.stress.mpa > w.limit.strength_mpa;
  f.verdict = root_opens && !beyond ? Verdict::marginal : over ? Verdict::fail : Verdict::pass;
  f.message = fmt::format(
      "{} carries the most of the seams of {}: {:.0f} mm of seam, {:.2f} mm of throat on the mean, with {:.0f} N and "
      "{:.1f} Nm{}, {} of {} in the throat, {:.0f} percent, {}. {}",
      plan.instances[w.group.of].name, what, w.stress.length_mm, w.stress.area_mm2 / w.stress.length_mm, w.force_n,
      w.moment_nmm / 1000, w.edge ? "" : " about their middle", mpa_words(w.stress.mpa), mpa_words(w.limit.mpa), 100 * w.utilisation, w.words,
      w.edge ? words_of(*w.edge) : words_of(w.stress)) + words_of_elements(w.group.lines);
  if (const double pried = w.stress.mpa - norm(w.stress.of_force + w.stress.of_moment); !w.edge && pried > 0.01) {
    f.message += fmt::format(
        "; {} more is of what turns it about its one line, held by the seam and by what bears {:.1f} mm beside it",
        mpa_words(pried), w.group.pry_mm);
  }
  if (w.stress.not_taken_nmm > 0.05 * w.moment_nmm && w.stress.not_taken_nmm > 1) {
    f.message +=
        fmt::format("; {:.1f} Nm about the one line that these seams lie on are left to the contact beside them",
                    w.stress.not_taken_nmm / 1000);
  }
  if (root_opens) {
    f.message += fmt::format(
        "; the root of the bead opens, {} the {} that it has without a factor. Whether what is round it takes that over "
        "once the sheet turns there is not proved: a bead on its other side too (welds.sides), a larger leg (welds.leg) "
        "or thicker plates keep the root shut",
        beyond ? "beyond" : "within", mpa_words(w.limit.strength_mpa));
  } else if (over) {
    f.message += "; a longer seam (a wider part) or a larger leg (welds.leg) mends it";
  }
  return f;
}

}  // namespace

std::vector<Finding> check_seams(const Plan& plan, const Seams& seams, const Weights& weights, const FrameModel* model,
                                 const std::vector<SolvedCase>& cases) {
  std::vector<Finding> all;
  if (model != nullptr) {
    FrameSeams frame(plan, seams, *model, cases);
    frame.run();
    for (const auto& [kind, worst] : frame.worst()) {
      if (worst.utilisation >= 0) all.push_back(finding_of(plan, worst, words_of(kind.second)));
    }
  }
  FootSeams feet(plan, seams, weights);
  feet.run();
  if (feet.worst().utilisation >= 0) all.push_back(finding_of(plan, feet.worst(), "feet and lugs"));
  if (auto covers = check_cover_seams(plan, seams)) all.push_back(std::move(*covers));
  for (Finding& f : check_seam_sizes(plan, seams)) all.push_back(std::move(f));
  return all;
}

}  // namespace fitup::loads

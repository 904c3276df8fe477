// Forces of the space frame to the seams that carry them.
// Entry: worst_frame_seams.
#include "loads/frame_seams.h"

#include <algorithm>
#include <set>

#include "loads/seam_corners.h"

namespace fitup::loads {

namespace {

// Along sheet a seam shares its load over so much: it yields before it breaks (EN 1993-1-8, 4.9, from memory).
constexpr double shared_over_mm = 2 * least_seam_mm;

const Part& part_of(const Plan& plan, InstanceId id) { return plan.parts[plan.instances[id].part]; }

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
    for (const auto& [where, group] : groups_) {
      if (!is_of_braces(group)) own.insert(where);
    }
    at_corner_ = joints_beside(model, own, shared_over_mm);
    take_braces_beside(plan, seams);
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
  [[nodiscard]] const std::map<std::pair<std::size_t, Seamed>, WorstSeam>& worst() const { return worst_; }

 private:
  using Where = AtNode;
  struct Net {
    Vec3 force, moment;  // about the node
  };

  [[nodiscard]] bool is_of_braces(const JointGroup& group) const {
    const auto is_brace = [this](InstanceId id) { return part_of(plan_, id).role == Role::brace; };
    return std::all_of(group.others.begin(), group.others.end(), is_brace);
  }

  // A brace lies over a corner as a gusset does, and its seams carry together with those of the corner; farther along a
  // member they are a joint of their own.
  void take_braces_beside(const Plan& plan, const Seams& seams) {
    for (auto group = groups_.begin(); group != groups_.end();) {
      const auto corner = at_corner_.find(group->first);
      if (!is_of_braces(group->second) || part_of(plan, group->first.first).role == Role::brace) {
        ++group;
      } else if (corner == at_corner_.end()) {
        at_corner_.emplace(group->first, group->first);
        ++group;
      } else {
        JointGroup& whole = groups_.at(corner->second);
        std::vector<std::size_t> joints = whole.joints;
        joints.insert(joints.end(), group->second.joints.begin(), group->second.joints.end());
        whole = joint_group(plan, seams, corner->second.first, joints);
        group = groups_.erase(group);
      }
    }
  }

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
  std::map<std::pair<std::size_t, Seamed>, WorstSeam> worst_;
};

}  // namespace

std::map<std::pair<std::size_t, Seamed>, WorstSeam> worst_frame_seams(const Plan& plan, const Seams& seams,
                                                                      const FrameModel& model,
                                                                      const std::vector<SolvedCase>& cases) {
  FrameSeams frame(plan, seams, model, cases);
  frame.run();
  return frame.worst();
}

}  // namespace fitup::loads

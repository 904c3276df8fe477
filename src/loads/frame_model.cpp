// Members, rails and bosses of a Plan to nodes, pieces and rigid links.
// Entry: frame_model.
#include "loads/frame_model.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>
#include <set>
#include <variant>

#include "loads/line_ends.h"
#include "loads/panel_mesh.h"

namespace fitup::loads {

namespace {

// Joints of one corner are one node: nearer along a member than this many times its larger leg.
constexpr double one_corner = 1.1;
// Joints nearer along a member are one, and where a panel's corner is held beside one.
constexpr double one_joint_mm = 1;
constexpr double one_tie_mm = 8;
constexpr double beside_hinge_mm = 10;

bool is_beam(const Part& part) {
  switch (part.role) {
    case Role::ring_member:
    case Role::upright:
    case Role::cross_bar:
    case Role::bearer:
    case Role::brace:
    case Role::rail: return true;
    default: return false;
  }
}

bool is_panel(const Part& part) {
  return part.role == Role::face_plate || part.role == Role::rod_plate || part.role == Role::gusset;
}

/// A place on a beam where something joins it.
struct Station {
  InstanceId of = 0;
  double along_mm = 0;
  std::size_t node = 0;
  bool panel = false;  // where a panel's corner is held
};

class Modelling {
 public:
  Modelling(const Plan& plan, const Seams& seams) : plan_(plan), seams_(seams) {
    for (InstanceId i = 0; i < plan.instances.size(); ++i) {
      const Part& part = plan.parts[plan.instances[i].part];
      if (!is_beam(part)) continue;
      const auto line = centroid_line(plan, i);
      const auto section = section_of(part);
      if (!line || !section || line->length_mm() <= 0) continue;
      lines_.emplace(i, *line);
      model_.sections.emplace(i, properties_of(*section));
      reach_.emplace(i, one_corner * std::max(section->leg_a_mm, section->leg_b_mm));
    }
  }

  std::optional<FrameModel> run() {
    for (std::size_t j = 0; j < plan_.joints.size(); ++j) {
      const Joint& joint = plan_.joints[j];
      if (joint.kind == JointKind::weld || joint.kind == JointKind::bolted) join(joint.a, joint.b, j);
    }
    if (stations_.empty()) return std::nullopt;
    hinges_ = ends_on_one_line(plan_, seams_, lines_, model_.sections, reach_);
    tie_panels();
    gather();
    for (const auto& [end, hinge] : hinges_) keep_bosses_off(end);
    place_nodes();
    cut_pieces();
    add_panels();
    if (model_.frame.members.empty()) return std::nullopt;
    model_.panel_at_seam = panels_at_seams(model_);
    return std::move(model_);
  }

 private:
  std::size_t find(std::size_t n) {
    while (same_[n] != n) n = same_[n] = same_[same_[n]];
    return n;
  }

  std::size_t station(InstanceId of, double along_mm) {
    stations_.push_back({of, along_mm, stations_.size(), false});
    same_.push_back(same_.size());
    return same_.size() - 1;
  }

  void join(InstanceId a, InstanceId b, std::size_t joint) {
    if (lines_.contains(b) && !lines_.contains(a)) std::swap(a, b);
    if (!lines_.contains(a)) return;
    if (lines_.contains(b)) {
      NearestPlaces at = nearest_places(lines_.at(a), lines_.at(b));
      at.on_a_mm = where_it_comes_free(a, b, at.on_a_mm);
      at.on_b_mm = where_it_comes_free(b, a, at.on_b_mm);
      const std::size_t one = station(a, at.on_a_mm);
      const std::size_t two = station(b, at.on_b_mm);
      same_[find(two)] = find(one);
      joints_[joint] = one;
      return;
    }
    if (plan_.parts[plan_.instances[b].part].role != Role::boss) return;
    const Vec3 at = plan_.instances[b].pose.origin();
    bosses_[b] = station(a, std::clamp(lines_.at(a).along(at), 0.0, lines_.at(a).length_mm()));
  }

  // A rail lies on the whole of a leg and is welded at its edge: it begins to bend where it leaves that leg.
  [[nodiscard]] double where_it_comes_free(InstanceId rail, InstanceId leg, double along_mm) const {
    const Instance& instance = plan_.instances[leg];
    if (plan_.parts[plan_.instances[rail].part].role != Role::rail) return along_mm;
    const CentroidLine& line = lines_.at(rail);
    const double middle = line.length_mm() / 2;
    double free = along_mm;
    for (const Prism& p : body_of(plan_.parts[instance.part]).inner) {
      const Box3 box = Prism{p.profile, instance.pose * p.pose, p.length_mm}.bounds();
      for (const Vec3 corner : {box.low, box.high}) {
        const double at = line.along(corner);
        // Of a leg along the rail there is no such place.
        if (at < 0 || at > line.length_mm() || norm(box.size()) <= 0) continue;
        if (std::abs(at - middle) < std::abs(free - middle) && std::abs(at - along_mm) < middle / 2) free = at;
      }
    }
    return free;
  }

  // A panel is held where its seams lie; two members that hold one corner of it are one there.
  void tie_panels() {
    std::map<InstanceId, std::vector<const Seam*>> welded;
    for (const Seam& seam : seams_.all) {
      const Joint& joint = plan_.joints[seam.joint];
      for (const auto& [plate, member] : {std::pair{joint.a, joint.b}, {joint.b, joint.a}}) {
        if (holds(seam) && is_panel(plan_.parts[plan_.instances[plate].part]) && lines_.contains(member)) {
          welded[plate].push_back(&seam);
        }
      }
    }
    for (const auto& [plate, seams] : welded) {
      auto mesh = panel_mesh(plan_, plate, seams);
      if (!mesh) continue;
      std::map<std::size_t, std::size_t> held;
      for (const bool beside : {false, true}) {
        for (const Seam* seam : seams) tie(*mesh, *seam, held, beside);
      }
      if (held.size() < 2) continue;  // it would turn about the one
      std::vector<bool> is_held(mesh->node_count(), false);
      for (const auto& [node, station] : held) is_held[node] = true;
      mesh->keep_what_hangs_on(is_held);
      panels_.push_back({*mesh, held});
    }
  }

  void tie(const PanelMesh& mesh, const Seam& seam, std::map<std::size_t, std::size_t>& held, bool beside) {
    const Joint& joint = plan_.joints[seam.joint];
    const InstanceId member = joint.a == mesh.of ? joint.b : joint.a;
    for (const SeamNode& n : nodes_on(mesh, seam)) {
      const double at = lines_.at(member).along(mesh.at(n.node)), along = beside_hinges(member, at);
      const auto known = held.find(n.node);
      if (is_beside_hinge(member, at) != beside) continue;
      // What another member holds there it holds; beside a hinge the two are not one.
      if (beside && known != held.end() && stations_[known->second].of != member) continue;
      const std::size_t s = station(member, along);
      stations_[s].panel = true;
      if (known == held.end()) {
        held.emplace(n.node, s);
      } else {
        same_[find(s)] = find(known->second);
      }
      ties_.push_back({{mesh.of, member, seam.joint, 0, {n.from, n.to, throat_mm(seam), share_of(seam)}}, s});
    }
  }

  /// Where along a member sheet hangs on it: on its own side of a hinge.
  [[nodiscard]] double beside_hinges(InstanceId member, double along_mm) const {
    const double low = hinges_.contains({member, false}) ? beside_hinge_mm : 0;
    const double high = lines_.at(member).length_mm() - (hinges_.contains({member, true}) ? beside_hinge_mm : 0);
    return std::clamp(along_mm, low, std::max(low, high));
  }

  [[nodiscard]] bool is_beside_hinge(InstanceId member, double along_mm) const {
    return (hinges_.contains({member, false}) && along_mm < beside_hinge_mm) ||
           (hinges_.contains({member, true}) && along_mm > lines_.at(member).length_mm() - beside_hinge_mm);
  }

  void add_panels() {
    model_.member_nodes = model_.frame.nodes.size();
    for (const auto& [tie, station] : ties_) {
      model_.ties.push_back(tie);
      model_.ties.back().node = stations_[station].node;
    }
    for (const auto& [mesh, held] : panels_) {
      std::map<std::size_t, std::size_t> node;
      for (const auto& [n, station] : held) node[n] = stations_[station].node;
      for (std::size_t c = 0; c < mesh.cells.size(); ++c) {
        if (mesh.cells[c]) add_panel(mesh, c, node);
      }
    }
  }

  void add_panel(const PanelMesh& mesh, std::size_t cell, std::map<std::size_t, std::size_t>& node) {
    FramePanel panel = mesh.panel(cell, elastic_of(plan_.parts[plan_.instances[mesh.of].part]));
    const auto corners = mesh.corners(cell);
    for (std::size_t i = 0; i < corners.size(); ++i) {
      const Vec3 at = mesh.at(corners[i]);
      const auto known = node.emplace(corners[i], model_.frame.nodes.size());
      if (known.second) model_.frame.nodes.push_back(at);
      panel.nodes[i] = known.first->second;
      panel.link[i] = at - model_.frame.nodes[panel.nodes[i]];
    }
    model_.frame.panels.push_back(panel);
    model_.panel_of.push_back(mesh.of);
  }

  // What joins one member within a corner's reach is one node, with all between; a boss keeps its own place.
  void gather() {
    std::map<InstanceId, std::vector<std::size_t>> of;
    for (std::size_t i = 0; i < stations_.size(); ++i) {
      if (!is_boss(i)) of[stations_[i].of].push_back(i);
    }
    for (auto& [id, all] : of) {
      std::sort(all.begin(), all.end(),
                [this](std::size_t a, std::size_t b) { return stations_[a].along_mm < stations_[b].along_mm; });
      std::optional<std::size_t> joint;
      for (std::size_t i = 0; i < all.size(); ++i) {
        const Station& s = stations_[all[i]];
        if (i > 0 && (s.panel || stations_[all[i - 1]].panel) && is_near(all[i - 1], all[i], one_tie_mm)) {
          same_[find(all[i])] = find(all[i - 1]);
        }
        if (s.panel) continue;
        if (joint && is_near(all[*joint], all[i], corner_reach(id, all[*joint], all[i]))) {
          for (std::size_t k = *joint + 1; k <= i; ++k) same_[find(all[k])] = find(all[*joint]);
        }
        joint = i;
      }
    }
  }

  [[nodiscard]] bool is_near(std::size_t a, std::size_t b, double reach_mm) const {
    return stations_[b].along_mm - stations_[a].along_mm <= reach_mm;
  }

  // Rails side by side along a member are joints of their own; near an end all is one corner, but where that turns in a
  // hinge. Sheet bends along with the member from where that comes free.
  [[nodiscard]] double corner_reach(InstanceId id, std::size_t a, std::size_t b) const {
    const double reach = reach_.at(id), end = lines_.at(id).length_mm();
    const bool begins = stations_[b].along_mm <= reach && !hinges_.contains({id, false});
    const bool ends = stations_[a].along_mm >= end - reach && !hinges_.contains({id, true});
    return begins || ends ? reach : one_joint_mm;
  }

  [[nodiscard]] bool is_boss(std::size_t station) const {
    return std::any_of(bosses_.begin(), bosses_.end(), [&](const auto& b) { return b.second == station; });
  }

  // A member hangs by a hinge with all that stands on it: a boss beyond the joint joins it on the member's own side.
  void keep_bosses_off(const MemberEnd& end) {
    const auto& [id, far_end] = end;
    const double length = lines_.at(id).length_mm();
    const auto from_end = [&](const Station& s) { return far_end ? length - s.along_mm : s.along_mm; };
    constexpr double none = std::numeric_limits<double>::infinity();
    double joint = none, next = none;
    for (std::size_t i = 0; i < stations_.size(); ++i) {
      if (stations_[i].of == id && !is_boss(i)) joint = std::min(joint, from_end(stations_[i]));
    }
    for (std::size_t i = 0; i < stations_.size(); ++i) {
      const double at = from_end(stations_[i]);
      if (stations_[i].of == id && at > joint + one_joint_mm) next = std::min(next, at);
    }
    if (next == none) return;
    const double beside = joint + std::min(beside_hinge_mm, (next - joint) / 2);
    for (std::size_t i = 0; i < stations_.size(); ++i) {
      if (stations_[i].of != id || !is_boss(i) || from_end(stations_[i]) > joint + one_joint_mm) continue;
      stations_[i].along_mm = far_end ? length - beside : beside;
    }
  }

  void place_nodes() {
    std::map<std::size_t, std::vector<Vec3>> places;
    for (std::size_t i = 0; i < stations_.size(); ++i) {
      places[find(i)].push_back(lines_.at(stations_[i].of).at(stations_[i].along_mm));
    }
    std::map<std::size_t, std::size_t> node;
    for (const auto& [root, at] : places) {
      node[root] = model_.frame.nodes.size();
      Vec3 sum;
      for (const Vec3 p : at) sum = sum + p;
      model_.frame.nodes.push_back((1 / static_cast<double>(at.size())) * sum);
    }
    for (std::size_t i = 0; i < stations_.size(); ++i) stations_[i].node = node[find(i)];
    for (const auto& [joint, station] : joints_) model_.node_of_joint[joint] = stations_[station].node;
    for (const auto& [boss, station] : bosses_) {
      // At the boss itself: what pulls there does so beside the centroid.
      model_.node_of[boss] = stations_[station].node;
      const Vec3 at = plan_.instances[boss].pose.origin();
      Vec3& place = model_.frame.nodes[stations_[station].node];
      place = {at.x, at.y, place.z};
    }
  }

  void cut_pieces() {
    std::map<InstanceId, std::vector<const Station*>> of;
    for (const Station& s : stations_) of[s.of].push_back(&s);
    for (auto& [id, all] : of) {
      std::stable_sort(all.begin(), all.end(),
                       [](const Station* a, const Station* b) { return a->along_mm < b->along_mm; });
      for (std::size_t i = 1; i < all.size(); ++i) {
        const Station &from = *all[i - 1], &to = *all[i];
        add_piece(id, from, to, from.node == all.front()->node ? hinge(id, false) : std::nullopt,
                  to.node == all.back()->node ? hinge(id, true) : std::nullopt);
      }
    }
  }

  [[nodiscard]] std::optional<Hinge> hinge(InstanceId id, bool far_end) const {
    const auto known = hinges_.find({id, far_end});
    return known == hinges_.end() ? std::nullopt : std::optional(known->second);
  }

  /// The hinges in the frame's coordinates.
  void add_piece(InstanceId id, const Station& from, const Station& to, const std::optional<Hinge>& begins,
                 const std::optional<Hinge>& ends) {
    if (from.node == to.node || to.along_mm - from.along_mm < 1e-3) return;
    const CentroidLine& line = lines_.at(id);
    const auto in = [this](const std::optional<Hinge>& hinge, std::size_t node) -> std::optional<Hinge> {
      if (!hinge) return std::nullopt;
      return Hinge{hinge->axis, hinge->at - model_.frame.nodes[node]};
    };
    FrameMember m{from.node,
                  to.node,
                  line.y,
                  model_.sections.at(id).beam(),
                  elastic_of(plan_.parts[plan_.instances[id].part]),
                  line.at(from.along_mm) - model_.frame.nodes[from.node],
                  line.at(to.along_mm) - model_.frame.nodes[to.node],
                  in(begins, from.node),
                  in(ends, to.node)};
    model_.frame.members.push_back(m);
    model_.pieces.push_back({id, from.along_mm, to.along_mm});
  }

  const Plan& plan_;
  const Seams& seams_;
  std::map<InstanceId, CentroidLine> lines_;
  std::map<InstanceId, double> reach_;
  std::map<MemberEnd, Hinge> hinges_;
  std::vector<Station> stations_;
  std::vector<std::size_t> same_;
  std::map<InstanceId, std::size_t> bosses_;
  std::vector<std::pair<PanelMesh, std::map<std::size_t, std::size_t>>> panels_;  // with the station of each node held
  std::vector<std::pair<PanelTie, std::size_t>> ties_;                            // and its station
  std::map<std::size_t, std::size_t> joints_;                                     // station of each joint of two beams
  FrameModel model_;
};

}  // namespace

std::optional<FrameModel> frame_model(const Plan& plan, const Seams& seams) { return Modelling(plan, seams).run(); }

std::vector<bool> panels_at_seams(const FrameModel& model) {
  std::set<std::pair<InstanceId, std::size_t>> held;
  for (const PanelTie& tie : model.ties) held.emplace(tie.plate, tie.node);
  std::vector<bool> at_seam;
  for (std::size_t p = 0; p < model.panel_of.size(); ++p) {
    const auto& nodes = model.frame.panels[p].nodes;
    at_seam.push_back(std::any_of(nodes.begin(), nodes.end(), [&](std::size_t n) {
      return held.contains({model.panel_of[p], n});
    }));
  }
  return at_seam;
}

std::size_t FrameModel::nearest_node(Vec3 at) const {
  const auto square = [&at](Vec3 p) { return dot(p - at, p - at); };
  const auto nearer = [&square](Vec3 a, Vec3 b) { return square(a) < square(b); };
  const auto end = frame.nodes.begin() + static_cast<std::ptrdiff_t>(member_nodes);
  return static_cast<std::size_t>(std::min_element(frame.nodes.begin(), end, nearer) - frame.nodes.begin());
}

std::optional<std::size_t> FrameModel::piece_at(InstanceId of, double along_mm) const {
  std::optional<std::size_t> last;
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    if (pieces[i].of != of) continue;
    if (!last || along_mm >= pieces[i].from_mm) last = i;
  }
  return last;
}

}  // namespace fitup::loads

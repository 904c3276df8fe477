// Plates of a box to panels, their seams to common nodes.
// Entry: plate_model.
#include "loads/plate_model.h"

#include <algorithm>
#include <cmath>
#include <set>

#include "fitup/weight.h"
#include "loads/panel_mesh.h"
#include "loads/ring_beams.h"
#include "loads/seam_runs.h"

namespace fitup::loads {

namespace {

// Cells along the longest side of the box: twice as many change what its plates take by some percent.
constexpr double cells_along_box = 14;
// Both seams of a joint are on one line, which lies in its middle.
constexpr double beside_joint_mm = 3;

bool is_plate(const Part& part) {
  switch (part.role) {
    case Role::wall:
    case Role::rib:
    case Role::doubler:
    case Role::face_plate:
    case Role::rod_plate:
    case Role::gusset:
    case Role::rail: return std::holds_alternative<Flat>(part.form);
    default: return false;
  }
}

double thickness_of(const Plan& plan, InstanceId id) {
  const Part& part = plan.parts[plan.instances[id].part];
  if (const auto* flat = std::get_if<Flat>(&part.form)) return flat->thickness_mm;
  return std::get<Member>(part.form).section.thickness_mm;
}

class PlateModelling {
 public:
  PlateModelling(const Plan& plan, const Seams& seams) : plan_(plan), ring_(plan) {
    for (const Seam& seam : seams.all) {
      const Joint& joint = plan.joints[seam.joint];
      if (!holds(seam) || seam.ring_diameter_mm > 0 || norm(seam.to - seam.from) <= 0) continue;
      if (is_of_model(joint.a) && is_of_model(joint.b)) add_to_runs(runs_, seam, reach_of(seam.joint));
    }
  }

  std::optional<FrameModel> run() {
    keep_first_piece();
    if (runs_.empty()) return std::nullopt;
    lay_grid();
    for (const SeamRun& run : runs_) {
      for (const InstanceId id : {plan_.joints[run.joint].a, plan_.joints[run.joint].b}) add_mesh(id);
    }
    for (const SeamRun& run : runs_) join(run);
    keep_what_is_joined();
    if (hung_.empty()) return std::nullopt;
    for (auto& [id, mesh] : meshes_) {
      if (hung_.contains(id)) add_panels(mesh);
    }
    for (const InstanceId beam : ring_.beams()) {
      if (hung_.contains(beam)) add_pieces(beam);
    }
    model_.member_nodes = model_.frame.nodes.size();
    note_ties();
    note_ring_joints();
    model_.panel_at_seam = panels_at_seams(model_);
    note_bosses();
    return std::move(model_);
  }

 private:
  using Corner = std::pair<InstanceId, std::size_t>;  // of a mesh, or a station of a beam

  [[nodiscard]] const Part& part(InstanceId id) const { return plan_.parts[plan_.instances[id].part]; }

  [[nodiscard]] bool is_of_model(InstanceId id) const { return is_plate(part(id)) || ring_.has(id); }

  static double of(Vec3 v, std::size_t axis) { return axis == 0 ? v.x : axis == 1 ? v.y : v.z; }

  /// How far the seams of a joint, and its plates' middle planes, are apart at most.
  [[nodiscard]] double reach_of(std::size_t joint) const {
    return beside_joint_mm +
           std::max(thickness_of(plan_, plan_.joints[joint].a), thickness_of(plan_, plan_.joints[joint].b));
  }

  /// What hangs together with most of the first box: seams of other boxes put no lines into its grid.
  void keep_first_piece() {
    for (const SeamRun& run : runs_) {
      const Joint& joint = plan_.joints[run.joint];
      joined_[joint.a].insert(joint.b);
      joined_[joint.b].insert(joint.a);
    }
    const std::set<InstanceId> piece = largest_piece(plan_, joined_, [](InstanceId) { return true; });
    std::erase_if(runs_, [&](const SeamRun& run) { return !piece.contains(plan_.joints[run.joint].a); });
    joined_.clear();
  }

  /// Through each run of seams, through the middle of a short one, and through each lift boss.
  void lay_grid() {
    Box3 box;
    for (const SeamRun& run : runs_) {
      box.add(run.whole.from);
      box.add(run.whole.to);
    }
    const Vec3 size = box.size();
    grid_.cell_mm = std::max({size.x, size.y, size.z}) / cells_along_box;
    for (const SeamRun& run : runs_) {
      for (std::size_t a = 0; a < 3; ++a) {
        const double from = of(run.whole.from, a), to = of(run.whole.to, a);
        if (std::abs(to - from) < grid_.cell_mm) grid_.lines[a].push_back((from + to) / 2);
      }
    }
    for (const LiftPoint& p : plan_.lift_points) {
      grid_.lines[0].push_back(p.at.x);
      grid_.lines[1].push_back(p.at.y);
    }
    for (std::size_t a = 0; a < 3; ++a) grid_.lines[a] = thinned(std::move(grid_.lines[a]), a);
  }

  /// Those nearer than a sheet's thickness are one; then no two farther apart than a cell.
  [[nodiscard]] std::vector<double> thinned(std::vector<double> all, std::size_t axis) const {
    std::sort(all.begin(), all.end());
    std::vector<double> kept;
    for (const double line : all) {
      const bool of_boss = std::any_of(plan_.lift_points.begin(), plan_.lift_points.end(), [&](const LiftPoint& p) {
        return axis < 2 && std::abs(of({p.at.x, p.at.y, 0}, axis) - line) < 1e-9;
      });
      if (kept.empty() || line - kept.back() > 2 * beside_joint_mm) {
        kept.push_back(line);
      } else if (of_boss) {
        kept.back() = line;
      }
    }
    std::vector<double> filled;
    for (const double line : kept) {
      if (!filled.empty()) {
        const double from = filled.back(), steps = std::ceil((line - from) / grid_.cell_mm);
        for (double i = 1; i < steps; ++i) filled.push_back(from + (line - from) * i / steps);
      }
      filled.push_back(line);
    }
    return filled;
  }

  void add_mesh(InstanceId id) {
    if (meshes_.contains(id) || ring_.has(id)) return;
    if (auto mesh = panel_mesh(plan_, id, grid_)) meshes_.emplace(id, std::move(*mesh));
  }

  Corner root(Corner c) {
    for (auto up = same_.find(c); up != same_.end(); up = same_.find(c)) c = up->second;
    return c;
  }

  void join(const SeamRun& run) {
    const Joint& joint = plan_.joints[run.joint];
    if (ring_.has(joint.a) || ring_.has(joint.b)) return join_to_ring(run, joint);
    if (!meshes_.contains(joint.a) || !meshes_.contains(joint.b)) return;
    const double within = reach_of(run.joint);
    const auto on_a = nodes_on(meshes_.at(joint.a), run.whole, within);
    const auto on_b = nodes_on(meshes_.at(joint.b), run.whole, within);
    for (const SeamNode& a : on_a) {
      const auto near = [&](const SeamNode& x, const SeamNode& y) {
        return apart(run, joint, a, x) < apart(run, joint, a, y);
      };
      const auto b = std::min_element(on_b.begin(), on_b.end(), near);
      if (b == on_b.end() || apart(run, joint, a, *b) > within) continue;
      const std::vector<WeldLine> stretches = stretches_of(run, a);
      if (!stretches.empty()) tie(run, {joint.a, a.node}, {joint.b, b->node}, stretches);
    }
  }

  /// Members of the ring where their seam is; a plate by each of its nodes on the seam.
  void join_to_ring(const SeamRun& run, const Joint& joint) {
    if (ring_.has(joint.a) && ring_.has(joint.b)) {
      const Vec3 middle = 0.5 * (run.whole.from + run.whole.to);
      const Corner a{joint.a, ring_.station(joint.a, middle)}, b{joint.b, ring_.station(joint.b, middle)};
      make_one(a, b);
      if (is_alone(run)) {
        const InstanceId turns = ring_.ends_at(joint.a, joint.b, middle);
        ring_.let_turn(turns, turns == joint.a ? a.second : b.second, run.whole);
      }
      ring_joints_.emplace(run.joint, a);
      return;
    }
    const auto [plate, beam] = ring_.has(joint.b) ? std::pair{joint.a, joint.b} : std::pair{joint.b, joint.a};
    if (!meshes_.contains(plate)) return;
    for (const SeamNode& node : nodes_on(meshes_.at(plate), run.whole, reach_of(run.joint))) {
      const std::vector<WeldLine> stretches = stretches_of(run, node);
      if (stretches.empty()) continue;
      const Corner own{plate, node.node};
      make_one({beam, ring_.station(beam, meshes_.at(plate).at(node.node))}, own);
      for (const WeldLine& line : stretches) ties_.push_back({{plate, beam, run.joint, 0, line}, own});
    }
  }

  /// Of all seams of its joint: about that line the legs bend long before they carry a moment.
  [[nodiscard]] bool is_alone(const SeamRun& run) const {
    constexpr double on_the_line_mm = 0.5;
    return std::none_of(runs_.begin(), runs_.end(), [&](const SeamRun& other) {
      return other.joint == run.joint && !is_on_line(other.whole, run.whole, on_the_line_mm);
    });
  }

  void make_one(Corner a, Corner b) {
    const Corner one = root(a), two = root(b);
    if (one != two) same_[two] = one;
    joined_[a.first].insert(b.first);
    joined_[b.first].insert(a.first);
    held_[a.first].insert(a.second);
    held_[b.first].insert(b.second);
  }

  void tie(const SeamRun& run, Corner a, Corner b, const std::vector<WeldLine>& stretches) {
    make_one(a, b);
    for (const WeldLine& line : stretches) {
      ties_.push_back({{a.first, b.first, run.joint, 0, line}, a});
      ties_.push_back({{b.first, a.first, run.joint, 0, line}, b});
    }
  }

  /// What is welded of the stretch that is nearest to a node.
  static std::vector<WeldLine> stretches_of(const SeamRun& run, const SeamNode& node) {
    const Vec3 along = along_of(run.whole);
    const double low = run.along(node.from), high = run.along(node.to);
    std::vector<WeldLine> lines;
    for (const Seam* seam : run.seams) {
      const double from = run.along(seam->from), to = run.along(seam->to);
      const double first = std::max(low, std::min(from, to)), last = std::min(high, std::max(from, to));
      if (last - first < 1e-6) continue;
      lines.push_back(
          {seam->from + (first - from) * along, seam->from + (last - from) * along, throat_mm(*seam), share_of(*seam)});
    }
    return lines;
  }

  /// Along the seam.
  [[nodiscard]] double apart(const SeamRun& run, const Joint& joint, const SeamNode& a, const SeamNode& b) const {
    return std::abs(dot(meshes_.at(joint.a).at(a.node) - meshes_.at(joint.b).at(b.node), along_of(run.whole)));
  }

  /// The piece with most of the first box; a plate that is held at one point alone would turn about it.
  void keep_what_is_joined() {
    hung_ = largest_piece(plan_, joined_, [&](InstanceId id) { return held_[id].size() >= 2; });
    for (auto& [id, mesh] : meshes_) {
      std::vector<bool> held(mesh.node_count(), false);
      for (const std::size_t n : held_[id]) held[n] = true;
      mesh.keep_what_hangs_on(held);
    }
  }

  std::size_t node_of(const PanelMesh& mesh, std::size_t corner) { return node_at({mesh.of, corner}, mesh.at(corner)); }

  std::size_t node_at(const Corner& corner, Vec3 at) {
    const auto known = nodes_.emplace(root(corner), model_.frame.nodes.size());
    if (known.second) model_.frame.nodes.push_back(at);
    return known.first->second;
  }

  void add_pieces(InstanceId beam) {
    const CentroidLine& line = ring_.line(beam);
    const auto section = properties_of(*section_of(part(beam)));
    model_.sections.emplace(beam, section);
    const std::vector<std::size_t> stations = ring_.along(beam);
    for (std::size_t i = 1; i < stations.size(); ++i) {
      const Vec3 from = ring_.at(beam, stations[i - 1]), to = ring_.at(beam, stations[i]);
      const std::size_t a = node_at({beam, stations[i - 1]}, from), b = node_at({beam, stations[i]}, to);
      if (a == b) continue;
      model_.frame.members.push_back({a, b, line.y, section.beam(), elastic_of(part(beam)),
                                      from - model_.frame.nodes[a], to - model_.frame.nodes[b],
                                      ring_.hinge(beam, stations[i - 1], model_.frame.nodes[a]),
                                      ring_.hinge(beam, stations[i], model_.frame.nodes[b])});
      model_.pieces.push_back({beam, line.along(from), line.along(to)});
    }
  }

  void note_ring_joints() {
    for (const auto& [joint, corner] : ring_joints_) {
      const auto node = nodes_.find(root(corner));
      if (node != nodes_.end()) model_.node_of_joint[joint] = node->second;
    }
  }

  void add_panels(const PanelMesh& mesh) {
    for (std::size_t c = 0; c < mesh.cells.size(); ++c) {
      if (!mesh.cells[c]) continue;
      FramePanel panel = mesh.panel(c, elastic_of(part(mesh.of)));
      const auto corners = mesh.corners(c);
      for (std::size_t i = 0; i < corners.size(); ++i) {
        panel.nodes[i] = node_of(mesh, corners[i]);
        panel.link[i] = mesh.at(corners[i]) - model_.frame.nodes[panel.nodes[i]];
      }
      model_.frame.panels.push_back(panel);
      model_.panel_of.push_back(mesh.of);
    }
  }

  void note_ties() {
    for (const auto& [tie, corner] : ties_) {
      const auto node = nodes_.find(root(corner));
      if (node == nodes_.end()) continue;
      model_.ties.push_back(tie);
      model_.ties.back().node = node->second;
    }
  }

  /// The node of the plate under it; the grid has one in its middle.
  void note_bosses() {
    for (const Joint& joint : plan_.joints) {
      if (joint.kind != JointKind::weld) continue;
      for (const auto& [boss, plate] : {std::pair{joint.a, joint.b}, {joint.b, joint.a}}) {
        if (part(boss).role != Role::boss || !hung_.contains(plate) || model_.node_of.contains(boss)) continue;
        const Vec3 at = plan_.instances[boss].pose.origin();
        double least = 1e300;
        for (std::size_t p = 0; p < model_.panel_of.size(); ++p) {
          if (model_.panel_of[p] != plate) continue;
          for (std::size_t c = 0; c < 4; ++c) {
            const std::size_t n = model_.frame.panels[p].nodes[c];
            const double off = norm(model_.frame.nodes[n] + model_.frame.panels[p].link[c] - at);
            if (off < least) model_.node_of[boss] = n;
            least = std::min(least, off);
          }
        }
      }
    }
  }

  const Plan& plan_;
  RingBeams ring_;
  std::vector<SeamRun> runs_;
  WorldGrid grid_;
  std::map<InstanceId, PanelMesh> meshes_;
  std::map<Corner, Corner> same_;
  Joined joined_;
  std::map<InstanceId, std::set<std::size_t>> held_;
  std::set<InstanceId> hung_;
  std::vector<std::pair<PanelTie, Corner>> ties_;
  std::map<Corner, std::size_t> nodes_;
  std::map<std::size_t, Corner> ring_joints_;  // of two members of the ring, by index into Plan::joints
  FrameModel model_;
};

}  // namespace

std::optional<FrameModel> plate_model(const Plan& plan, const Seams& seams) {
  return PlateModelling(plan, seams).run();
}

}  // namespace fitup::loads

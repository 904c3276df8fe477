// Forces at places to loads of members and nodes.
// Entry: Laying.
#include "loads/lay_on.h"

#include <algorithm>
#include <limits>

#include "loads/hung_boxes.h"

namespace fitup::loads {

namespace {

/// A place in a panel's plane, as shares of its width and height, and how far off the place was.
struct InPanel {
  double u = 0;
  double v = 0;
  double off_mm = std::numeric_limits<double>::infinity();
};

}  // namespace

Laying::Laying(const FrameModel& model, const std::set<InstanceId>& by_edges) : model_(model) {
  for (std::size_t i = 0; i < model.pieces.size(); ++i) pieces_[model.pieces[i].of].push_back(i);
  for (std::size_t i = 0; i < model.panel_of.size(); ++i) panels_[model.panel_of[i]].push_back(i);
  if (by_edges.empty()) return;
  std::set<std::size_t> of_members;
  std::map<std::size_t, std::set<InstanceId>> sheets;
  for (const FrameMember& m : model.frame.members) of_members.insert({m.a, m.b});
  for (std::size_t i = 0; i < model.panel_of.size(); ++i) {
    for (const std::size_t n : model.frame.panels[i].nodes) sheets[n].insert(model.panel_of[i]);
  }
  for (const InstanceId id : by_edges) {
    for (const std::size_t p : panels_[id]) {
      const FramePanel& panel = model.frame.panels[p];
      for (std::size_t c = 0; c < panel.nodes.size(); ++c) {
        const std::size_t n = panel.nodes[c];
        if (of_members.contains(n) || sheets[n].size() > 1) edges_[id].emplace(n, model.frame.nodes[n] + panel.link[c]);
      }
    }
  }
}

void Laying::over(InstanceId on, Vec3 force) {
  if (const auto panels = panels_.find(on); panels != panels_.end()) return over_panels(panels->second, force);
  double length = 0;
  for (const std::size_t p : pieces_.at(on)) length += model_.pieces[p].to_mm - model_.pieces[p].from_mm;
  for (const std::size_t p : pieces_.at(on)) load_.lines.push_back({p, (1 / length) * force, false});
}

void Laying::over_about(InstanceId on, Vec3 middle, Vec3 force) {
  over(on, force);
  const auto pieces = pieces_.find(on);
  if (pieces == pieces_.end()) return;
  const FrameMember &first = model_.frame.members[pieces->second.front()],
                    &last = model_.frame.members[pieces->second.back()];
  const Vec3 from = model_.frame.nodes[first.a] + first.from_a;
  const Vec3 path = model_.frame.nodes[last.b] + last.from_b - from;
  const double s = std::clamp(dot(middle - from, path) / dot(path, path), 0.0, 1.0);
  const Vec3 pair = (s - 0.5) * (force - (dot(force, path) / dot(path, path)) * path);
  load_.nodes.push_back({first.a, -1 * pair, -1 * cross(first.from_a, pair)});
  load_.nodes.push_back({last.b, pair, cross(last.from_b, pair)});
}

void Laying::at(InstanceId on, Vec3 at, Vec3 force, Vec3 moment) {
  if (edges_.contains(on)) return to_edges(on, at, force, moment);
  if (const auto panels = panels_.find(on); panels != panels_.end()) {
    return on_panels(panels->second, at, force, moment);
  }
  const auto pieces = pieces_.find(on);
  if (pieces == pieces_.end()) return at_nearest(at, force, moment);
  std::size_t nearest = pieces->second.front();
  double least = std::numeric_limits<double>::infinity();
  for (const std::size_t p : pieces->second) {
    const FrameMember& m = model_.frame.members[p];
    const Vec3 from = model_.frame.nodes[m.a] + m.from_a, path = model_.frame.nodes[m.b] + m.from_b - from;
    const double s = dot(at - from, path) / dot(path, path);
    const double beyond = std::max({0.0, -s, s - 1}) * norm(path);
    if (beyond >= least) continue;
    least = beyond;
    nearest = p;
  }
  on_piece(nearest, at, force, moment);
}

void Laying::at_nearest(Vec3 at, Vec3 force, Vec3 moment) {
  const std::size_t node = model_.nearest_node(at);
  load_.nodes.push_back({node, force, moment + cross(at - model_.frame.nodes[node], force)});
}

void Laying::over_panels(const std::vector<std::size_t>& panels, Vec3 force) {
  double area = 0;
  for (const std::size_t p : panels) area += model_.frame.panels[p].width_mm * model_.frame.panels[p].height_mm;
  for (const std::size_t p : panels) {
    const FramePanel& panel = model_.frame.panels[p];
    const Vec3 each = (0.25 * panel.width_mm * panel.height_mm / area) * force;
    for (std::size_t c = 0; c < panel.nodes.size(); ++c) {
      load_.nodes.push_back({panel.nodes[c], each, cross(panel.link[c], each)});
    }
  }
}

void Laying::to_edges(InstanceId on, Vec3 at, Vec3 force, Vec3 moment) {
  std::vector<Vec3> places;
  for (const auto& [node, place] : edges_.at(on)) places.push_back(place);
  const std::vector<Share> shares = shared_stiffly(force, moment + cross(at, force), places);
  std::size_t i = 0;
  for (const auto& [node, place] : edges_.at(on)) {
    const Vec3 lever = place - model_.frame.nodes[node];
    load_.nodes.push_back({node, shares[i].force, shares[i].moment + cross(lever, shares[i].force)});
    ++i;
  }
}

void Laying::on_piece(std::size_t piece, Vec3 at, Vec3 force, Vec3 moment) {
  const FrameMember& m = model_.frame.members[piece];
  const Vec3 from = model_.frame.nodes[m.a] + m.from_a, path = model_.frame.nodes[m.b] + m.from_b - from;
  const double length = norm(path);
  const Vec3 along = (1 / length) * path;
  const double s = std::clamp(dot(at - from, along) / length, 0.0, 1.0);
  load_.lines.push_back({piece, (1 / length) * force, false});
  const Vec3 pair = (s - 0.5) * (force - dot(force, along) * along);
  const Vec3 turns = moment + cross(at - (from + s * path), force);
  load_.nodes.push_back({m.a, -1 * pair, (1 - s) * turns - cross(m.from_a, pair)});
  load_.nodes.push_back({m.b, pair, s * turns + cross(m.from_b, pair)});
}

void Laying::on_panels(const std::vector<std::size_t>& panels, Vec3 at, Vec3 force, Vec3 moment) {
  std::size_t nearest = panels.front();
  InPanel in;
  for (const std::size_t p : panels) {
    const FramePanel& panel = model_.frame.panels[p];
    const Vec3 low = model_.frame.nodes[panel.nodes[0]] + panel.link[0];
    const double u = std::clamp(dot(at - low, panel.x) / panel.width_mm, 0.0, 1.0);
    const double v = std::clamp(dot(at - low, panel.y) / panel.height_mm, 0.0, 1.0);
    const double off = norm(at - (low + u * panel.width_mm * panel.x + v * panel.height_mm * panel.y));
    if (off >= in.off_mm) continue;
    in = {u, v, off};
    nearest = p;
  }
  const FramePanel& panel = model_.frame.panels[nearest];
  const Vec3 low = model_.frame.nodes[panel.nodes[0]] + panel.link[0];
  const Vec3 place = low + in.u * panel.width_mm * panel.x + in.v * panel.height_mm * panel.y;
  const Vec3 turns = moment + cross(at - place, force);
  const std::array<double, 4> shares{(1 - in.u) * (1 - in.v), in.u * (1 - in.v), in.u * in.v, (1 - in.u) * in.v};
  for (std::size_t c = 0; c < 4; ++c) {
    const Vec3 each = shares[c] * force;
    load_.nodes.push_back({panel.nodes[c], each, shares[c] * turns + cross(panel.link[c], each)});
  }
}

}  // namespace fitup::loads

// Feet, lugs and corners to supports.
// Entry: stands_on.
#include "loads/stands_on.h"

#include <algorithm>
#include <limits>

namespace fitup::loads {

namespace {

constexpr double on_one_line_mm2 = 100;  // twice the area that the places span: less, and it would turn about their line

/// The nodes that the model has of an instance, with the places of its own there.
std::map<std::size_t, Vec3> nodes_of(const FrameModel& model, InstanceId id) {
  std::map<std::size_t, Vec3> nodes;
  for (std::size_t p = 0; p < model.pieces.size(); ++p) {
    if (model.pieces[p].of != id) continue;
    const FrameMember& m = model.frame.members[p];
    nodes.emplace(m.a, model.frame.nodes[m.a] + m.from_a);
    nodes.emplace(m.b, model.frame.nodes[m.b] + m.from_b);
  }
  for (std::size_t p = 0; p < model.panel_of.size(); ++p) {
    if (model.panel_of[p] != id) continue;
    const FramePanel& panel = model.frame.panels[p];
    for (std::size_t c = 0; c < panel.nodes.size(); ++c) {
      nodes.emplace(panel.nodes[c], model.frame.nodes[panel.nodes[c]] + panel.link[c]);
    }
  }
  return nodes;
}

std::optional<std::size_t> node_at(const FrameModel& model, const LoadPaths& paths, const PatternHole& hole) {
  std::set<InstanceId> on{hole.plate};
  if (const auto body = paths.body_of.find(hole.plate); body != paths.body_of.end()) {
    for (const Hold& h : paths.bodies[body->second].holds) on.insert(h.on);
  }
  std::optional<std::size_t> nearest;
  double least = std::numeric_limits<double>::infinity();
  for (const InstanceId id : on) {
    for (const auto& [node, place] : nodes_of(model, id)) {
      const double off = norm(place - hole.at);
      if (off >= least) continue;
      least = off;
      nearest = node;
    }
  }
  return nearest;
}

bool spans_an_area(const FrameModel& model, const std::set<std::size_t>& nodes) {
  const Vec3 first = model.frame.nodes[*nodes.begin()];
  for (const std::size_t a : nodes) {
    for (const std::size_t b : nodes) {
      if (norm(cross(model.frame.nodes[a] - first, model.frame.nodes[b] - first)) > on_one_line_mm2) return true;
    }
  }
  return false;
}

// The corner nodes that the first box stands on; not two of one place.
std::set<std::size_t> four_corners(const Plan& plan, const FrameModel& model) {
  std::set<std::size_t> nodes;
  const Box3& box = plan.frames.front().space;
  for (const double x : {box.low.x, box.high.x}) {
    for (const double y : {box.low.y, box.high.y}) nodes.insert(model.nearest_node({x, y, box.low.z}));
  }
  return nodes;
}

std::vector<Support> pinned_at(const std::set<std::size_t>& nodes) {
  std::vector<Support> supports;
  for (const std::size_t n : nodes) supports.push_back({n, pinned});
  return supports;
}

}  // namespace

StandsOn stands_on(const Plan& plan, const FrameModel& model, const LoadPaths& paths) {
  std::set<std::size_t> nodes;
  bool feet = false, lugs = false;
  for (const Pattern& pattern : plan.patterns) {
    const bool of_feet = pattern.key.ends_with(".feet"), of_lugs = pattern.key.ends_with(".lugs");
    if (!of_feet && !of_lugs) continue;
    for (const PatternBody& body : pattern.bodies) {
      for (const PatternHole& hole : body.holes) {
        const auto node = node_at(model, paths, hole);
        if (!node) continue;
        nodes.insert(*node);
        (of_feet ? feet : lugs) = true;
      }
    }
  }
  if (nodes.size() < 3 || !spans_an_area(model, nodes)) {
    return {pinned_at(four_corners(plan, model)), "standing on its four lower corners", "held at its four lower corners"};
  }
  const char* what = feet && lugs ? "feet and lugs" : feet ? "feet" : "lugs";
  return {pinned_at(nodes), std::string(feet ? "standing on its " : "hanging by its ") + what,
          std::string("held by the bolts of its ") + what};
}

}  // namespace fitup::loads

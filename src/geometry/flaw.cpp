// Why a profile cannot be a plate: every pair of edges and every hole is looked at.
// Entry: flaw_in.
#include <algorithm>
#include <vector>

#include <fmt/format.h>

#include "fitup/geometry.h"
#include "fitup/tolerances.h"
#include "geometry/intersect.h"

namespace fitup {

namespace {

using geometry::Side;

std::string at(Vec2 p) { return fmt::format("at ({:.3f}, {:.3f}) mm", p.x, p.y); }

// Neighbours may share their common corner, nothing else.
std::optional<std::string> self_crossing(const Loop& loop) {
  const auto edges = loop.edges();
  const std::size_t n = edges.size();
  std::vector<Box2> boxes;
  boxes.reserve(n);
  for (const Edge& e : edges) boxes.push_back(e.bounds());
  for (std::size_t i = 0; i < n; ++i) {
    for (std::size_t j = i + 1; j < n; ++j) {
      if (geometry::apart(boxes[i], boxes[j], tolerance::contact_mm)) continue;
      for (const Vec2 p : geometry::common_points(edges[i], edges[j])) {
        const bool after = j == i + 1 && norm(p - edges[i].to) <= tolerance::coincident_mm;
        const bool before = i == 0 && j == n - 1 && norm(p - edges[i].from) <= tolerance::coincident_mm;
        if (!after && !before) return "an outline meets itself " + at(p);
      }
    }
  }
  return std::nullopt;
}

std::optional<std::string> flaw_in_loop(const Loop& loop) {
  if (loop.vertices.size() < 2) return "an outline has fewer than two edges";
  for (const Edge& e : loop.edges()) {
    if (norm(e.to - e.from) <= tolerance::coincident_mm) return "an edge has no length " + at(e.from);
  }
  if (loop.area_mm2() <= 0) return "an outline does not run counter-clockwise";
  return self_crossing(loop);
}

std::optional<std::string> meeting(const Loop& a, const Loop& b) {
  const Box2 whole = b.bounds();
  for (const Edge& ea : a.edges()) {
    const Box2 ba = ea.bounds();
    if (geometry::apart(ba, whole, tolerance::contact_mm)) continue;
    for (const Edge& eb : b.edges()) {
      if (geometry::apart(ba, eb.bounds(), tolerance::contact_mm)) continue;
      const geometry::NearestPlace nearest = geometry::nearest_place(ea, eb);
      if (nearest.distance_mm <= tolerance::contact_mm) return "two outlines meet " + at(nearest.at);
    }
  }
  return std::nullopt;
}

}  // namespace

std::optional<std::string> flaw_in(const Profile& profile) {
  if (auto flaw = flaw_in_loop(profile.outer)) return flaw;
  std::vector<Box2> boxes;
  boxes.reserve(profile.holes.size());
  for (const Loop& hole : profile.holes) boxes.push_back(hole.bounds());
  for (std::size_t i = 0; i < profile.holes.size(); ++i) {
    const Loop& hole = profile.holes[i];
    if (auto flaw = flaw_in_loop(hole)) return flaw;
    if (auto flaw = meeting(profile.outer, hole)) return flaw;
    if (geometry::side_of(profile.outer, hole.vertices.front().at) != Side::inside) {
      return "a hole lies outside the outline " + at(hole.vertices.front().at);
    }
    for (std::size_t j = 0; j < i; ++j) {
      if (geometry::apart(boxes[i], boxes[j], tolerance::contact_mm)) continue;
      const Loop& other = profile.holes[j];
      if (auto flaw = meeting(other, hole)) return flaw;
      if (geometry::side_of(other, hole.vertices.front().at) == Side::inside ||
          geometry::side_of(hole, other.vertices.front().at) == Side::inside) {
        return "one hole lies in another " + at(hole.vertices.front().at);
      }
    }
  }
  return std::nullopt;
}

}  // namespace fitup

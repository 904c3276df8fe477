// Looks at the edges of a mesh: closed, one sense, bodies.
// Entry: facts_of.
#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>

#include "inspect/mesh_file.h"

namespace fitup::inspect {

namespace {

/// One side of a facet; `low` < `high`.
struct HalfEdge {
  std::uint32_t low = 0;
  std::uint32_t high = 0;
  std::uint32_t facet = 0;
  bool forward = false;
};

std::vector<HalfEdge> half_edges(const MeshFile& mesh) {
  std::vector<HalfEdge> edges;
  edges.reserve(3 * mesh.triangles.size());
  for (std::uint32_t i = 0; i < mesh.triangles.size(); ++i) {
    const auto& t = mesh.triangles[i];
    for (std::size_t k = 0; k < 3; ++k) {
      const std::uint32_t from = t[k];
      const std::uint32_t to = t[(k + 1) % 3];
      edges.push_back({std::min(from, to), std::max(from, to), i, from < to});
    }
  }
  std::sort(edges.begin(), edges.end(), [](const HalfEdge& a, const HalfEdge& b) {
    return a.low != b.low ? a.low < b.low : a.high != b.high ? a.high < b.high : a.facet < b.facet;
  });
  return edges;
}

/// Facets that hang together, each with a sign: the same as, or turned against, the body's first.
class Bodies {
 public:
  explicit Bodies(std::size_t facets) : parent_(facets), turned_(facets, false) {
    std::iota(parent_.begin(), parent_.end(), 0U);
  }
  std::pair<std::uint32_t, bool> root(std::uint32_t i) {
    bool turned = false;
    std::uint32_t at = i;
    while (parent_[at] != at) {
      turned = turned != turned_[at];
      at = parent_[at];
    }
    // The whole way is made short, each facet keeping its sign against the root.
    bool rest = turned;
    while (parent_[i] != i && parent_[i] != at) {
      const std::uint32_t next = parent_[i];
      const bool own = turned_[i];
      parent_[i] = at;
      turned_[i] = rest;
      rest = rest != own;
      i = next;
    }
    return {at, turned};
  }
  void join(std::uint32_t a, std::uint32_t b, bool against) {
    const auto [ra, ta] = root(a);
    const auto [rb, tb] = root(b);
    if (ra == rb) return;
    parent_[rb] = ra;
    turned_[rb] = (ta != tb) != against;
  }

 private:
  std::vector<std::uint32_t> parent_;
  std::vector<bool> turned_;
};

struct Body {
  std::size_t as_first = 0;
  std::size_t against = 0;
  double volume = 0;
  bool open = false;
};

void look_at_edges(const MeshFile& mesh, const std::vector<HalfEdge>& edges, Bodies& bodies,
                   std::vector<std::uint32_t>& open_facets, MeshFacts& facts) {
  for (std::size_t i = 0; i < edges.size();) {
    std::size_t end = i;
    while (end < edges.size() && edges[end].low == edges[i].low && edges[end].high == edges[i].high) ++end;
    if (end - i == 1) {
      if (facts.open_edges++ == 0) facts.first_open = 0.5 * (mesh.points[edges[i].low] + mesh.points[edges[i].high]);
      open_facets.push_back(edges[i].facet);
    } else if (end - i > 2) {
      ++facts.crowded_edges;
    } else {
      const bool same_way = edges[i].forward == edges[i + 1].forward;
      if (same_way) ++facts.turned_edges;
      bodies.join(edges[i].facet, edges[i + 1].facet, same_way);
    }
    if (end - i > 2) {
      for (std::size_t k = i + 1; k < end; ++k) {
        bodies.join(edges[i].facet, edges[k].facet, edges[i].forward == edges[k].forward);
      }
    }
    i = end;
  }
}

std::size_t doubled_facets(const MeshFile& mesh) {
  std::vector<std::array<std::uint32_t, 3>> sorted = mesh.triangles;
  for (auto& t : sorted) std::sort(t.begin(), t.end());
  std::sort(sorted.begin(), sorted.end());
  return static_cast<std::size_t>(sorted.end() - std::unique(sorted.begin(), sorted.end()));
}

using Ends = std::pair<std::uint32_t, std::uint32_t>;

std::vector<Ends> open_edges(const std::vector<HalfEdge>& edges) {
  std::vector<Ends> open;
  for (std::size_t i = 0; i < edges.size(); ++i) {
    const auto same = [&](std::size_t k) { return edges[k].low == edges[i].low && edges[k].high == edges[i].high; };
    if ((i > 0 && same(i - 1)) || (i + 1 < edges.size() && same(i + 1))) continue;
    open.emplace_back(edges[i].low, edges[i].high);
  }
  return open;
}

/// How far corners of open edges within `reach` of each other would have to move for the mesh to close; 0: it would
/// not.
double widest_gap(const MeshFile& mesh, const std::vector<Ends>& open, double reach) {
  constexpr std::size_t most_open = 2000;
  if (open.empty() || open.size() > most_open) return 0;
  std::map<std::uint32_t, std::uint32_t> moved_to;
  for (const auto& [a, b] : open) {
    moved_to[a] = a;
    moved_to[b] = b;
  }
  double widest = 0;
  for (auto& [corner, target] : moved_to) {
    for (const auto& [other, other_target] : moved_to) {
      if (other >= corner) break;
      const double apart = norm(mesh.points[corner] - mesh.points[other]);
      if (apart > reach) continue;
      target = other_target;
      widest = std::max(widest, apart);
      break;
    }
  }
  std::map<Ends, int> uses;
  for (const auto& [a, b] : open) {
    const std::uint32_t from = moved_to[a];
    const std::uint32_t to = moved_to[b];
    if (from != to) ++uses[{std::min(from, to), std::max(from, to)}];
  }
  const bool closes = std::all_of(uses.begin(), uses.end(), [](const auto& use) { return use.second == 2; });
  return closes ? widest : 0;
}

}  // namespace

MeshFacts facts_of(const MeshFile& mesh) {
  MeshFacts facts;
  const auto edges = half_edges(mesh);
  Bodies joined(mesh.triangles.size());
  std::vector<std::uint32_t> open_facets;
  look_at_edges(mesh, edges, joined, open_facets, facts);
  for (const Vec3 p : mesh.points) facts.bounds.add(p);
  const Vec3 middle = mesh.points.empty() ? Vec3{} : facts.bounds.middle();
  std::map<std::uint32_t, Body> bodies;
  for (std::uint32_t i = 0; i < mesh.triangles.size(); ++i) {
    const auto& t = mesh.triangles[i];
    const Vec3 a = mesh.points[t[0]] - middle;
    const Vec3 b = mesh.points[t[1]] - middle;
    const Vec3 c = mesh.points[t[2]] - middle;
    facts.area += 0.5 * norm(cross(b - a, c - a));
    const auto [root, turned] = joined.root(i);
    Body& body = bodies[root];
    ++(turned ? body.against : body.as_first);
    const double volume = dot(a, cross(b, c)) / 6;
    body.volume += volume;
    facts.volume += volume;
  }
  for (const std::uint32_t i : open_facets) bodies[joined.root(i).first].open = true;
  facts.bodies = bodies.size();
  for (const auto& [root, body] : bodies) {
    facts.turned_facets += std::min(body.as_first, body.against);
    if (!body.open && body.volume < 0) ++facts.inside_out;
  }
  facts.doubled = doubled_facets(mesh);
  const Vec3 size = mesh.points.empty() ? Vec3{} : facts.bounds.size();
  if (facts.open_edges > 0) facts.widest_gap = widest_gap(mesh, open_edges(edges), 0.01 * norm(size));
  return facts;
}

}  // namespace fitup::inspect

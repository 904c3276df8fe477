// Joins lines and arcs into contours: what is doubled is left out, small gaps are bridged, the rest stays open.
// Entry: join.
#include "inspect/contours.h"

#include <algorithm>
#include <array>
#include <map>
#include <tuple>

#include "geometry/box_pairs.h"
#include "inspect/point_index.h"

namespace fitup::inspect {

namespace {

constexpr std::uint32_t none = UINT32_MAX;
// A chain's two ends nearer to each other than this share of its length are a gap, not a short line.
constexpr double largest_gap_share = 0.25;

Vec2 middle_of(const Edge& e) {
  if (e.straight()) return 0.5 * (e.from + e.to);
  const Vec2 chord = e.to - e.from;
  // The arc's rise over its chord is half the chord times the bulge, on the right of its way for a positive one.
  return 0.5 * (e.from + e.to) + (0.5 * e.bulge) * Vec2{chord.y, -chord.x};
}

Edge turned(const Edge& e) { return {e.to, e.from, -e.bulge}; }

/// Pieces end to end; an end that is a branch is not free.
struct Chain {
  std::vector<std::uint32_t> pieces;
  std::vector<bool> backward;
  std::array<std::uint32_t, 2> nodes{};
  double length_mm = 0;
};

class Joiner {
 public:
  Joiner(const Drawing& drawing, const std::vector<bool>& cut_layer) : drawing_(drawing), cut_layer_(cut_layer) {}

  Contours contours() {
    take_shapes();
    take_pieces();
    find_neighbours();
    trace();
    bridge();
    gather();
    std::sort(out_.gaps.begin(), out_.gaps.end(), [](const Gap& a, const Gap& b) { return a.width_mm > b.width_mm; });
    return std::move(out_);
  }

 private:
  void take_shapes() {
    std::map<std::tuple<long long, long long, long long, long long, long long>, std::size_t> seen;
    for (const Shape& shape : drawing_.shapes) {
      if (!cut_layer_[shape.layer]) continue;
      const Box2 b = shape.loop.bounds();
      const auto grid = [](double v) { return std::llround(v / closed_gap_mm); };
      const auto key =
          std::tuple(grid(b.low.x), grid(b.low.y), grid(b.high.x), grid(b.high.y), grid(shape.loop.perimeter_mm()));
      if (!seen.try_emplace(key, 0).second) {
        out_.doubled.push_back(b.middle());
        continue;
      }
      const bool curved = shape.as == DrawnAs::spline || shape.as == DrawnAs::ellipse;
      out_.closed.push_back({shape.loop, shape.layer, curved, false});
    }
  }

  void take_pieces() {
    PointIndex points(joined_mm);
    points.reserve(2 * drawing_.pieces.size());
    std::map<std::tuple<std::uint32_t, std::uint32_t, long long, long long>, std::size_t> seen;
    for (const Piece& piece : drawing_.pieces) {
      if (!cut_layer_[piece.layer]) continue;
      const std::uint32_t from = points.number_of(piece.edge.from);
      const std::uint32_t to = points.number_of(piece.edge.to);
      if (from == to) {
        out_.no_length.push_back(piece.edge.from);
        continue;
      }
      const Vec2 m = middle_of(piece.edge);
      const auto key = std::tuple(std::min(from, to), std::max(from, to), std::llround(m.x / closed_gap_mm),
                                  std::llround(m.y / closed_gap_mm));
      if (!seen.try_emplace(key, 0).second) {
        out_.doubled.push_back(m);
        continue;
      }
      pieces_.push_back(&piece);
      ends_.push_back({from, to});
    }
    points_ = points.points();
  }

  /// For each node the pieces that end there, in one array.
  void find_neighbours() {
    first_.assign(points_.size() + 1, 0);
    for (const auto& e : ends_) {
      ++first_[e[0] + 1];
      ++first_[e[1] + 1];
    }
    for (std::size_t i = 1; i < first_.size(); ++i) first_[i] += first_[i - 1];
    at_.resize(2 * ends_.size());
    std::vector<std::uint32_t> filled(first_.begin(), first_.end());
    for (std::uint32_t i = 0; i < ends_.size(); ++i) {
      at_[filled[ends_[i][0]]++] = i;
      at_[filled[ends_[i][1]]++] = i;
    }
    for (std::uint32_t node = 0; node < points_.size(); ++node) {
      if (degree(node) > 2) out_.branches.push_back(points_[node]);
    }
  }

  [[nodiscard]] std::uint32_t degree(std::uint32_t node) const { return first_[node + 1] - first_[node]; }

  void trace() {
    used_.assign(ends_.size(), false);
    for (std::uint32_t node = 0; node < points_.size(); ++node) {
      if (degree(node) == 2) continue;
      for (std::uint32_t k = first_[node]; k < first_[node + 1]; ++k) {
        if (!used_[at_[k]]) chains_.push_back(walk(node, at_[k]));
      }
    }
    for (std::uint32_t i = 0; i < ends_.size(); ++i) {
      if (!used_[i]) chains_.push_back(walk(ends_[i][0], i));
    }
  }

  /// From a node along a piece, on to the next node that is no plain joint.
  Chain walk(std::uint32_t start, std::uint32_t piece) {
    Chain chain;
    std::uint32_t node = start;
    while (piece != none) {
      used_[piece] = true;
      const bool backward = ends_[piece][0] != node;
      chain.pieces.push_back(piece);
      chain.backward.push_back(backward);
      chain.length_mm += pieces_[piece]->edge.length_mm();
      node = ends_[piece][backward ? 0 : 1];
      piece = none;
      if (degree(node) != 2) break;
      for (std::uint32_t k = first_[node]; k < first_[node + 1]; ++k) {
        if (!used_[at_[k]]) piece = at_[k];
      }
    }
    chain.nodes = {start, node};
    return chain;
  }

  [[nodiscard]] bool closed(const Chain& chain) const { return chain.nodes[0] == chain.nodes[1]; }

  /// Free ends that are near each other belong together, the nearest first. An end is 2 * chain + side.
  void bridge() {
    std::vector<std::uint32_t> free;
    std::vector<Box2> boxes;
    for (std::uint32_t c = 0; c < chains_.size(); ++c) {
      for (std::uint32_t side = 0; side < 2 && !closed(chains_[c]); ++side) {
        const std::uint32_t node = chains_[c].nodes[side];
        if (degree(node) != 1) continue;
        free.push_back(2 * c + side);
        boxes.push_back({points_[node], points_[node]});
      }
    }
    struct Candidate {
      double width_mm;
      std::uint32_t a;
      std::uint32_t b;
    };
    std::vector<Candidate> candidates;
    constexpr std::size_t most_looks = 10'000'000;
    geometry::each_near_pair(boxes, widest_gap_mm, most_looks, [&](std::size_t i, std::size_t j) {
      const double width = norm(boxes[i].low - boxes[j].low);
      const bool own = free[i] / 2 == free[j] / 2;
      if (own && width > largest_gap_share * chains_[free[i] / 2].length_mm) return;
      if (width <= widest_gap_mm) candidates.push_back({width, free[i], free[j]});
    });
    std::stable_sort(candidates.begin(), candidates.end(),
                     [](const Candidate& a, const Candidate& b) { return a.width_mm < b.width_mm; });
    link_.assign(2 * chains_.size(), none);
    for (const Candidate& c : candidates) {
      if (link_[c.a] != none || link_[c.b] != none) continue;
      link_[c.a] = c.b;
      link_[c.b] = c.a;
      out_.gaps.push_back({c.width_mm, 0.5 * (end_point(c.a) + end_point(c.b))});
    }
  }

  [[nodiscard]] Vec2 end_point(std::uint32_t end) const { return points_[chains_[end / 2].nodes[end % 2]]; }

  /// Chains with the bridges between them become contours, or stay open.
  void gather() {
    taken_.assign(chains_.size(), false);
    for (std::uint32_t c = 0; c < chains_.size(); ++c) {
      if (taken_[c]) continue;
      if (closed(chains_[c])) {
        taken_[c] = true;
        add_contour({2 * c});
      }
    }
    for (std::uint32_t c = 0; c < chains_.size(); ++c) {
      if (!taken_[c] && (link_[2 * c] == none || link_[2 * c + 1] == none))
        follow(link_[2 * c] == none ? 2 * c : 2 * c + 1);
    }
    for (std::uint32_t c = 0; c < chains_.size(); ++c) {
      if (!taken_[c]) follow(2 * c);
    }
  }

  /// Each entry is the end at which a chain is entered.
  void follow(std::uint32_t start) {
    std::vector<std::uint32_t> entered;
    std::uint32_t end = start;
    while (end != none && !taken_[end / 2]) {
      taken_[end / 2] = true;
      entered.push_back(end);
      end = link_[end ^ 1U];
    }
    if (end == start) return add_contour(entered);
    OpenChain open;
    open.tangled = degree(chains_[start / 2].nodes[start % 2]) > 2 ||
                   degree(chains_[entered.back() / 2].nodes[(entered.back() ^ 1U) % 2]) > 2;
    for (const std::uint32_t e : entered) append(e, open.edges);
    open.layer = pieces_[chains_[start / 2].pieces.front()]->layer;
    out_.open.push_back(std::move(open));
  }

  void append(std::uint32_t entered, std::vector<Edge>& edges) const {
    const Chain& chain = chains_[entered / 2];
    const std::size_t n = chain.pieces.size();
    for (std::size_t i = 0; i < n; ++i) {
      const std::size_t k = entered % 2 == 0 ? i : n - 1 - i;
      const Edge& e = pieces_[chain.pieces[k]]->edge;
      edges.push_back(chain.backward[k] == (entered % 2 == 0) ? turned(e) : e);
    }
  }

  void add_contour(const std::vector<std::uint32_t>& entered) {
    Contour contour;
    contour.layer = pieces_[chains_[entered.front() / 2].pieces.front()]->layer;
    std::vector<Edge> edges;
    for (const std::uint32_t e : entered) {
      append(e, edges);
      for (const std::uint32_t p : chains_[e / 2].pieces) {
        contour.curved = contour.curved || pieces_[p]->as == DrawnAs::spline || pieces_[p]->as == DrawnAs::ellipse;
      }
    }
    for (std::size_t i = 0; i < edges.size(); ++i) {
      const Vec2 next = edges[(i + 1) % edges.size()].from;
      contour.loop.vertices.push_back({edges[i].from, edges[i].bulge});
      if (norm(next - edges[i].to) <= closed_gap_mm) continue;
      contour.loop.vertices.push_back({edges[i].to, 0});
      contour.bridged = true;
    }
    out_.closed.push_back(std::move(contour));
  }

  const Drawing& drawing_;
  const std::vector<bool>& cut_layer_;
  Contours out_;
  std::vector<const Piece*> pieces_;
  std::vector<std::array<std::uint32_t, 2>> ends_;
  std::vector<Vec2> points_;
  std::vector<std::uint32_t> first_;
  std::vector<std::uint32_t> at_;
  std::vector<bool> used_;
  std::vector<Chain> chains_;
  std::vector<std::uint32_t> link_;
  std::vector<bool> taken_;
};

}  // namespace

Contours join(const Drawing& drawing, const std::vector<bool>& cut_layer) {
  return Joiner(drawing, cut_layer).contours();
}

}  // namespace fitup::inspect

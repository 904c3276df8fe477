// What locates an outline.
// Entry: outline_sizes, cut_out.

#include "bench/outline_sizes.h"

#include <algorithm>
#include <cmath>
#include <optional>

namespace fitup::bench {
namespace {

constexpr double same_mm = 5e-4;         // half of what a length is printed to
constexpr double same_direction = 1e-4;  // sine of an angle
constexpr double largest_relief_mm = 3;
constexpr double largest_bevel_mm = 12;  // longer ones are located by their ends

Vec2 direction(Vec2 v) { return (1 / norm(v)) * v; }

/// The way the outline goes as it begins or ends this edge.
Vec2 heading(const Edge& edge, bool at_end) {
  if (edge.straight()) return direction(edge.to - edge.from);
  const Arc arc = edge.arc();
  const double angle = arc.start + (at_end ? arc.sweep : 0);
  const double turn = arc.sweep > 0 ? 1 : -1;
  return turn * Vec2{-std::sin(angle), std::cos(angle)};
}

bool level(const Edge& e) { return e.straight() && std::abs(e.to.y - e.from.y) < same_mm; }
bool upright(const Edge& e) { return e.straight() && std::abs(e.to.x - e.from.x) < same_mm; }

/// A half round too small to be anything but room for a sharp corner.
bool is_ear(const Edge& e) {
  return !e.straight() && std::abs(std::abs(e.arc().sweep) - M_PI) < 0.01 && e.arc().radius < largest_relief_mm;
}

bool smooth(const Edge& before, const Edge& after) {
  const Vec2 a = heading(before, true);
  const Vec2 b = heading(after, false);
  return dot(a, b) > 0 && std::abs(cross(a, b)) < same_direction;
}

std::optional<Vec2> meeting(const Edge& a, const Edge& b) {
  const Vec2 u = a.to - a.from;
  const Vec2 v = b.to - b.from;
  const double by = cross(u, v);
  if (std::abs(by) < same_direction * norm(u) * norm(v)) return {};
  return a.from + (cross(b.from - a.from, v) / by) * u;
}

void merge(std::vector<Coordinate>& all, const Coordinate& one) {
  const auto found = std::find_if(all.begin(), all.end(),
                                  [&](const Coordinate& c) { return std::abs(c.at_mm - one.at_mm) < same_mm; });
  if (found == all.end()) {
    all.push_back(one);
  } else {
    found->from_mm = std::min(found->from_mm, one.from_mm);
    found->to_mm = std::max(found->to_mm, one.to_mm);
  }
}

void merge(std::vector<CornerSize>& all, const CornerSize& one) {
  const auto found = std::find_if(all.begin(), all.end(), [&](const CornerSize& c) {
    return c.kind == one.kind && std::abs(c.size_mm - one.size_mm) < same_mm;
  });
  if (found == all.end()) {
    all.push_back(one);
  } else {
    found->count += one.count;
  }
}

class Sizes {
 public:
  explicit Sizes(const Loop& loop) : edges_(loop.edges()) {
    if (loop.as_circle()) return;
    for (std::size_t i = 0; i < edges_.size(); ++i) look_at(i);
  }
  OutlineSizes out;

 private:
  [[nodiscard]] const Edge& edge(std::size_t i) const { return edges_[i % edges_.size()]; }
  [[nodiscard]] const Edge& before(std::size_t i) const { return edge(i + edges_.size() - 1); }

  /// Rounds the corner between its neighbours.
  [[nodiscard]] bool is_fillet(std::size_t i) const {
    const Edge& e = edge(i);
    return !e.straight() && before(i).straight() && edge(i + 1).straight() && smooth(before(i), e) &&
           smooth(e, edge(i + 1)) && std::abs(e.arc().sweep) < M_PI - 0.01;
  }

  [[nodiscard]] bool is_bevel(std::size_t i) const {
    const Edge& e = edge(i);
    const Vec2 run = e.to - e.from;
    if (!e.straight() || std::abs(std::abs(run.x) - std::abs(run.y)) > same_mm || std::abs(run.x) > largest_bevel_mm) {
      return false;
    }
    return (level(before(i)) && upright(edge(i + 1))) || (upright(before(i)) && level(edge(i + 1)));
  }

  [[nodiscard]] bool is_relief(std::size_t i) const {
    const Edge& e = edge(i);
    return is_ear(e) && before(i).straight() && edge(i + 1).straight() &&
           !(smooth(before(i), e) && smooth(e, edge(i + 1)));
  }

  [[nodiscard]] bool is_corner(std::size_t i) const { return is_fillet(i) || is_bevel(i); }

  void locate_x(double x, double y_from, double y_to) {
    merge(out.x, {x, std::min(y_from, y_to), std::max(y_from, y_to)});
  }
  void locate_y(double y, double x_from, double x_to) {
    merge(out.y, {y, std::min(x_from, x_to), std::max(x_from, x_to)});
  }

  void look_at(std::size_t i) {
    const Edge& e = edge(i);
    if (is_relief(i)) {
      merge(out.corners, {CornerSize::Kind::relief, middle_of(e.arc()), e.arc().radius});
    } else if (is_corner(i) && e.straight()) {
      merge(out.corners, {CornerSize::Kind::bevel, 0.5 * (e.from + e.to), std::abs(e.to.x - e.from.x)});
    } else if (is_corner(i)) {
      merge(out.corners, {CornerSize::Kind::round, middle_of(e.arc()), e.arc().radius});
    } else if (level(e)) {
      locate_y(e.from.y, e.from.x, e.to.x);
    } else if (upright(e)) {
      locate_x(e.from.x, e.from.y, e.to.y);
    } else if (e.straight()) {
      end(i, before(i), is_corner(i + edges_.size() - 1), edge(i + edges_.size() - 2), e.from);
      end(i, edge(i + 1), is_corner(i + 1), edge(i + 2), e.to);
    } else {
      const Arc arc = e.arc();
      locate_x(arc.centre.x, arc.centre.y, arc.centre.y);
      locate_y(arc.centre.y, arc.centre.x, arc.centre.x);
      merge(out.corners, {CornerSize::Kind::round, middle_of(arc), arc.radius});
    }
  }

  /// The end of a skew edge: where it meets its neighbour, past a rounded corner where there is one.
  void end(std::size_t i, const Edge& next, bool rounded, const Edge& beyond, Vec2 at) {
    if (rounded && beyond.straight()) at = meeting(edge(i), beyond).value_or(at);
    const Edge& other = rounded ? beyond : next;
    if (!level(other)) locate_y(at.y, at.x, at.x);
    if (!upright(other)) locate_x(at.x, at.y, at.y);
  }

  static Vec2 middle_of(const Arc& arc) {
    const double angle = arc.start + 0.5 * arc.sweep;
    return arc.centre + arc.radius * Vec2{std::cos(angle), std::sin(angle)};
  }

  std::vector<Edge> edges_;
};

void sort(std::vector<Coordinate>& all) {
  std::sort(all.begin(), all.end(), [](const Coordinate& a, const Coordinate& b) { return a.at_mm < b.at_mm; });
}

}  // namespace

OutlineSizes outline_sizes(const Loop& loop) {
  Sizes sizes(loop);
  sort(sizes.out.x);
  sort(sizes.out.y);
  return std::move(sizes.out);
}

void OutlineSizes::add(const OutlineSizes& other) {
  for (const Coordinate& one : other.x) merge(x, one);
  for (const Coordinate& one : other.y) merge(y, one);
  for (const CornerSize& one : other.corners) merge(corners, one);
  sort(x);
  sort(y);
}

void OutlineSizes::leave_out(const Box2& bounds) {
  const auto drop = [](std::vector<Coordinate>& all, double low, double high) {
    std::erase_if(all, [&](const Coordinate& c) {
      return std::abs(c.at_mm - low) < same_mm || std::abs(c.at_mm - high) < same_mm;
    });
  };
  drop(x, bounds.low.x, bounds.high.x);
  drop(y, bounds.low.y, bounds.high.y);
}

CutOut cut_out(const Loop& loop) {
  if (const auto circle = loop.as_circle()) return {CutOut::Kind::circle, circle->radius};
  const Box2 box = loop.bounds();
  const auto edges = loop.edges();
  CutOut out;
  std::size_t rounds = 0;
  std::size_t ears = 0;
  for (std::size_t i = 0; i < edges.size(); ++i) {
    const Edge& e = edges[i];
    if (e.straight()) {
      if (!level(e) && !upright(e)) return {};
      continue;
    }
    const double radius = e.arc().radius;
    if (rounds + ears > 0 && std::abs(radius - out.radius_mm) > same_mm) return {};
    out.radius_mm = radius;
    const bool is_smooth =
        smooth(edges[(i + edges.size() - 1) % edges.size()], e) && smooth(e, edges[(i + 1) % edges.size()]);
    if (!is_smooth && !is_ear(e)) return {};
    ++(is_smooth ? rounds : ears);
  }
  const double narrow = std::min(box.size().x, box.size().y);
  const std::size_t straight = edges.size() - rounds - ears;
  const bool eared = ears == 4 && rounds == 0 && straight == 4;
  const bool round_ends = ears == 0 && std::abs(2 * out.radius_mm - narrow) < same_mm && straight == 2;
  const bool rectangle = ears == 0 && straight == 4 && (rounds == 0 || rounds == 4);
  if (!eared && !round_ends && !rectangle) return {};
  out.kind = round_ends ? CutOut::Kind::slot : CutOut::Kind::rectangle;
  out.relief = eared;
  return out;
}

}  // namespace fitup::bench

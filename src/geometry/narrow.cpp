// Finds holes, slots, webs and inner corners of a plate.
// Entry: narrow_places, inner_corners.
#include "geometry/narrow.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "fitup/tolerances.h"
#include "geometry/box_pairs.h"
#include "geometry/narrow_groups.h"
#include "geometry/region.h"

namespace fitup::geometry {

namespace {

constexpr double same_mm = 1e-6;
// How far from square to the outline a narrow place may be measured, as a cosine: rounding of arcs written as bulges.
constexpr double square_slack = 0.02;
// A turn of less than this many degrees is no corner: curves are often drawn as short lines.
constexpr double least_corner_deg = 20;

Vec2 unit(Vec2 v) {
  const double length = norm(v);
  return length > 0 ? (1 / length) * v : Vec2{};
}
Vec2 left_of(Vec2 v) { return {-v.y, v.x}; }

/// An edge of the plate, its neighbours on its loop, and on which side the material is.
struct Side {
  Stretch stretch;
  std::size_t loop = 0;
  std::size_t before = 0;
  std::size_t after = 0;
  double material = 1;  // 1: on the left
  bool round = false;   // of a round loop

  /// Unit direction of travel at a point of it.
  [[nodiscard]] Vec2 along(Vec2 p) const {
    if (stretch.straight) return unit(stretch.edge.to - stretch.edge.from);
    return (stretch.arc.sweep > 0 ? 1.0 : -1.0) * left_of(unit(p - stretch.arc.centre));
  }
  [[nodiscard]] Vec2 nearest_to(Vec2 p) const {
    const Edge& e = stretch.edge;
    if (!stretch.straight) {
      const Vec2 r = p - stretch.arc.centre;
      if (norm(r) > same_mm && stretch.arc.passes(r)) return stretch.arc.centre + stretch.arc.radius * unit(r);
      return norm(p - e.from) <= norm(p - e.to) ? e.from : e.to;
    }
    const Vec2 d = e.to - e.from;
    const double length2 = dot(d, d);
    return e.from + (length2 > 0 ? std::clamp(dot(p - e.from, d) / length2, 0.0, 1.0) : 0.0) * d;
  }
};

std::vector<Side> sides_of(const Profile& profile) {
  std::vector<Side> sides;
  const auto add = [&sides](const Loop& loop, std::size_t index) {
    const bool round = round_loop(loop).has_value();
    const double material = (loop.area_mm2() > 0 ? 1.0 : -1.0) * (index == 0 ? 1.0 : -1.0);
    const std::size_t first = sides.size();
    for (const Edge& e : loop.edges()) {
      if (e.length_mm() > same_mm) sides.push_back({stretch_of(e), index, 0, 0, material, round});
    }
    const std::size_t count = sides.size() - first;
    for (std::size_t i = 0; i < count; ++i) {
      sides[first + i].before = first + (i + count - 1) % count;
      sides[first + i].after = first + (i + 1) % count;
    }
  };
  add(profile.outer, 0);
  for (std::size_t i = 0; i < profile.holes.size(); ++i) add(profile.holes[i], i + 1);
  return sides;
}

class Facing {
 public:
  explicit Facing(const std::vector<Side>& sides) : sides_(sides) {}

  /// The nearest two points of two edges that face each other; width above `best.width_mm` is left out.
  [[nodiscard]] bool find(std::size_t i, std::size_t j, NarrowPlace& best) const {
    bool found = false;
    for (const auto& [p, q] : candidates(sides_[i], sides_[j])) {
      const double width = norm(q - p);
      if (width <= same_mm || width > best.width_mm || are_ends_of_an_arc(i, j, p, q)) continue;
      const int of_p = side_at(i, p, unit(q - p));
      if (of_p == 0 || of_p != side_at(j, q, unit(p - q))) continue;
      const NarrowKind kind = of_p > 0 ? NarrowKind::web : NarrowKind::slot;
      best = {kind, width, 0.5 * (p + q), std::min(sides_[i].loop, sides_[j].loop),
              std::max(sides_[i].loop, sides_[j].loop)};
      found = true;
    }
    return found;
  }

 private:
  using Pair = std::pair<Vec2, Vec2>;

  static std::vector<Pair> candidates(const Side& a, const Side& b) {
    std::vector<Pair> pairs;
    for (const Vec2 p : {a.stretch.edge.from, a.stretch.edge.to}) pairs.emplace_back(p, b.nearest_to(p));
    for (const Vec2 q : {b.stretch.edge.from, b.stretch.edge.to}) pairs.emplace_back(a.nearest_to(q), q);
    if (a.stretch.straight && b.stretch.straight) {
      middle_of_overlap(a, b, pairs);
    } else {
      if (!a.stretch.straight) from_centre(a, b, pairs, false);
      if (!b.stretch.straight) from_centre(b, a, pairs, true);
    }
    return pairs;
  }

  /// Of two lines beside each other: where the middle of what they share lies, so that their ends do not matter.
  static void middle_of_overlap(const Side& a, const Side& b, std::vector<Pair>& pairs) {
    const Vec2 u = a.along({});
    const Edge& ea = a.stretch.edge;
    const double length = norm(ea.to - ea.from);
    const double s = dot(b.stretch.edge.from - ea.from, u);
    const double t = dot(b.stretch.edge.to - ea.from, u);
    const double low = std::max(0.0, std::min(s, t));
    const double high = std::min(length, std::max(s, t));
    if (high - low <= same_mm) return;
    const Vec2 p = ea.from + (0.5 * (low + high)) * u;
    pairs.emplace_back(p, b.nearest_to(p));
  }

  /// A relief in a corner, or a rounded nose: its radius says how narrow it is.
  [[nodiscard]] bool are_ends_of_an_arc(std::size_t i, std::size_t j, Vec2 p, Vec2 q) const {
    for (const std::size_t between : {sides_[i].after, sides_[i].before}) {
      const Side& arc = sides_[between];
      if (arc.stretch.straight || (arc.before != j && arc.after != j)) continue;
      const Edge& e = arc.stretch.edge;
      if (std::min(norm(p - e.from), norm(p - e.to)) < same_mm &&
          std::min(norm(q - e.from), norm(q - e.to)) < same_mm) {
        return true;
      }
    }
    return false;
  }

  static void from_centre(const Side& arc, const Side& other, std::vector<Pair>& pairs, bool turned) {
    const Vec2 middle = arc.stretch.at(0.5);
    const Vec2 centre = arc.stretch.arc.centre;
    const auto add = [&](Vec2 p) {
      const Vec2 q = other.nearest_to(p);
      pairs.push_back(turned ? Pair{q, p} : Pair{p, q});
    };
    add(middle);
    const Vec2 q = other.stretch.straight ? other.nearest_to(centre) : other.stretch.arc.centre;
    const Vec2 way = q - centre;
    if (norm(way) <= same_mm) return;
    for (const double sign : {1.0, -1.0}) {
      if (arc.stretch.arc.passes(sign * way)) add(centre + (sign * arc.stretch.arc.radius) * unit(way));
    }
  }

  /// 1: `u` leads from p, square to the outline, into material; -1: into the void; 0: neither.
  [[nodiscard]] int side_at(std::size_t i, Vec2 p, Vec2 u) const {
    const Side& side = sides_[i];
    Vec2 onward = side.along(p);
    Vec2 back = -1.0 * onward;
    if (norm(p - side.stretch.edge.from) <= same_mm) back = -1.0 * sides_[side.before].along(p);
    if (norm(p - side.stretch.edge.to) <= same_mm) onward = sides_[side.after].along(p);
    if (dot(u, onward) > square_slack || dot(u, back) > square_slack) return 0;
    const Vec2 normal = left_of(unit(onward - back));
    const double into = side.material * dot(u, normal);
    return into > 0.3 ? 1 : into < -0.3 ? -1 : 0;
  }

  const std::vector<Side>& sides_;
};

double support(const Loop& loop, Vec2 direction) {
  double most = -1e300;
  for (const Edge& e : loop.edges()) {
    most = std::max(most, dot(e.from, direction));
    if (e.straight()) continue;
    const Arc a = e.arc();
    if (a.passes(direction)) most = std::max(most, dot(a.centre, direction) + a.radius);
  }
  return most;
}

void add_holes(const Profile& profile, double up_to_mm, NarrowGroups& groups) {
  for (std::size_t i = 0; i < profile.holes.size(); ++i) {
    const Loop& hole = profile.holes[i];
    const auto circle = round_loop(hole);
    const double width = circle ? 2 * circle->radius : least_width_mm(hole);
    if (width > up_to_mm) continue;
    const Vec2 at = circle ? circle->centre : hole.bounds().middle();
    groups.add_whole({circle ? NarrowKind::hole : NarrowKind::slot, width, at, i + 1, i + 1});
  }
}

}  // namespace

std::optional<Circle> round_loop(const Loop& loop) {
  if (auto circle = loop.as_circle()) return circle;
  std::optional<Circle> circle;
  double turned = 0;
  for (const Edge& e : loop.edges()) {
    if (e.straight()) return std::nullopt;
    const Arc a = e.arc();
    if (!circle) circle = Circle{a.centre, a.radius};
    if (norm(a.centre - circle->centre) > 1e-4 || std::abs(a.radius - circle->radius) > 1e-4) return std::nullopt;
    turned += a.sweep;
  }
  return std::abs(std::abs(turned) - 2 * M_PI) < 1e-3 ? circle : std::nullopt;
}

double least_width_mm(const Loop& loop) {
  constexpr std::size_t most_edges = 200;
  std::vector<Vec2> directions;
  const auto edges = loop.edges();
  if (edges.size() <= most_edges) {
    for (const Edge& e : edges) {
      if (norm(e.to - e.from) > same_mm) directions.push_back(left_of(unit(e.to - e.from)));
    }
  }
  constexpr int steps = 90;
  for (int i = 0; i < steps; ++i) directions.push_back({std::cos(M_PI * i / steps), std::sin(M_PI * i / steps)});
  double least = 1e300;
  for (const Vec2 d : directions) least = std::min(least, support(loop, d) + support(loop, -1.0 * d));
  return least;
}

NarrowSearch narrow_places(const Profile& profile, double up_to_mm, std::size_t most_looks) {
  const std::vector<Side> sides = sides_of(profile);
  std::vector<Box2> boxes;
  boxes.reserve(sides.size());
  for (const Side& side : sides) boxes.push_back(side.stretch.box);
  NarrowGroups groups;
  const Facing facing(sides);
  const bool complete = each_near_pair(boxes, up_to_mm, most_looks, [&](std::size_t i, std::size_t j) {
    if (sides[i].after == j || sides[i].before == j) return;
    if (sides[i].loop == sides[j].loop && sides[i].round) return;
    NarrowPlace place;
    place.width_mm = up_to_mm;
    if (facing.find(i, j, place)) groups.add(place, {i, j});
  });
  add_holes(profile, up_to_mm, groups);
  NarrowSearch search =
      groups.told_apart([&](std::size_t i) { return std::array{sides[i].before, i, sides[i].after}; });
  search.complete = complete;
  return search;
}

std::vector<InnerCorner> inner_corners(const Profile& profile) {
  const std::vector<Side> sides = sides_of(profile);
  std::vector<InnerCorner> corners;
  for (const Side& side : sides) {
    if (side.round) continue;
    const Edge& e = side.stretch.edge;
    if (!side.stretch.straight && side.stretch.arc.sweep * side.material < 0) {
      corners.push_back({side.stretch.arc.radius, side.stretch.at(0.5), side.loop});
    }
    const Vec2 in = side.along(e.to);
    const Vec2 out = sides[side.after].along(e.to);
    const double turn_deg = std::atan2(cross(in, out), dot(in, out)) * 180 / M_PI;
    if (turn_deg * side.material < -least_corner_deg) corners.push_back({0, e.to, side.loop});
  }
  std::stable_sort(corners.begin(), corners.end(),
                   [](const InnerCorner& a, const InnerCorner& b) { return a.radius_mm < b.radius_mm; });
  return corners;
}

}  // namespace fitup::geometry

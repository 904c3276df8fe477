// Moves each edge, then joins neighbours by an arc or where they cross.
// Entry: offset.
#include "geometry/offset.h"

#include <algorithm>
#include <cmath>
#include <vector>

namespace fitup::geometry {

namespace {

constexpr double same_mm = 1e-9;
// A turn of less than this is none: neighbours that run on into each other, by the rounding of their bulges.
constexpr double smooth_rad = 1e-6;

Vec2 unit(Vec2 v) { return (1 / norm(v)) * v; }
Vec2 right_of(Vec2 v) { return {v.y, -v.x}; }

/// An edge that was moved: a line, or an arc about the same centre.
struct Moved {
  Vec2 from;
  Vec2 to;
  Vec2 begins;  // unit directions of travel at its ends
  Vec2 ends;
  bool straight = true;
  Vec2 centre;
  double radius = 0;
  double turns = 1;  // of an arc: 1 counter-clockwise, -1 clockwise
  double sweep = 0;  // magnitude, before it is joined
};

std::optional<Moved> moved(const Edge& e, double by) {
  Moved m;
  if (e.straight()) {
    m.begins = m.ends = unit(e.to - e.from);
    m.from = e.from + by * right_of(m.begins);
    m.to = e.to + by * right_of(m.begins);
    return m;
  }
  const Arc arc = e.arc();
  m.straight = false;
  m.centre = arc.centre;
  m.turns = arc.sweep > 0 ? 1 : -1;
  m.sweep = std::abs(arc.sweep);
  m.radius = arc.radius + m.turns * by;
  if (m.radius <= same_mm) return std::nullopt;
  const Vec2 to_from = unit(e.from - arc.centre);
  const Vec2 to_to = unit(e.to - arc.centre);
  m.begins = -m.turns * right_of(to_from);
  m.ends = -m.turns * right_of(to_to);
  m.from = arc.centre + m.radius * to_from;
  m.to = arc.centre + m.radius * to_to;
  return m;
}

void cross_line_and_circle(const Moved& line, const Moved& arc, std::vector<Vec2>& out) {
  const Vec2 d = line.begins;
  const Vec2 foot = line.from + dot(arc.centre - line.from, d) * d;
  const double off2 = dot(foot - arc.centre, foot - arc.centre);
  const double half2 = arc.radius * arc.radius - off2;
  if (half2 < -same_mm) return;
  const double half = std::sqrt(std::max(0.0, half2));
  out.push_back(foot + half * d);
  out.push_back(foot - half * d);
}

void cross_circles(const Moved& a, const Moved& b, std::vector<Vec2>& out) {
  const Vec2 way = b.centre - a.centre;
  const double far = norm(way);
  if (far < same_mm) return;
  const double along = (far * far + a.radius * a.radius - b.radius * b.radius) / (2 * far);
  const double half2 = a.radius * a.radius - along * along;
  if (half2 < -same_mm) return;
  const double half = std::sqrt(std::max(0.0, half2));
  const Vec2 u = unit(way);
  for (const double sign : {1.0, -1.0}) out.push_back(a.centre + along * u + (sign * half) * right_of(u));
}

/// Where two neighbours cross, nearest to the corner that they had.
std::optional<Vec2> crossing(const Moved& a, const Moved& b, Vec2 corner) {
  std::vector<Vec2> points;
  if (a.straight && b.straight) {
    const double slope = cross(a.ends, b.begins);
    if (std::abs(slope) > same_mm) points.push_back(a.to + (cross(b.from - a.to, b.begins) / slope) * a.ends);
  } else if (a.straight) {
    cross_line_and_circle(a, b, points);
  } else if (b.straight) {
    cross_line_and_circle(b, a, points);
  } else {
    cross_circles(a, b, points);
  }
  std::optional<Vec2> nearest;
  for (const Vec2 p : points) {
    if (!nearest || norm(p - corner) < norm(*nearest - corner)) nearest = p;
  }
  return nearest;
}

/// The edge after its ends were moved to where its neighbours cross it: none where nothing is left.
std::optional<double> bulge_of(const Moved& m, Vec2 from, Vec2 to) {
  if (m.straight) return dot(to - from, m.begins) > same_mm ? std::optional(0.0) : std::nullopt;
  const Vec2 a = from - m.centre;
  const Vec2 b = to - m.centre;
  double swept = m.turns * std::atan2(cross(a, b), dot(a, b));
  if (swept < 0) swept += 2 * M_PI;
  // An arc that lost both ends beyond each other would come out as nearly a full turn.
  if (swept > m.sweep + smooth_rad || swept * m.radius <= same_mm) return std::nullopt;
  return m.turns * std::tan(swept / 4);
}

class Offset {
 public:
  Offset(const Loop& loop, double by) : edges_(loop.edges()), by_(by) {}

  std::optional<Loop> run() {
    for (const Edge& e : edges_) {
      const auto m = moved(e, by_);
      if (!m) return std::nullopt;
      moved_.push_back(*m);
    }
    const std::size_t n = moved_.size();
    std::vector<Vec2> from(n);
    std::vector<Vec2> to(n);
    std::vector<double> round(n, 0);  // bulge of the arc after an edge
    for (std::size_t i = 0; i < n; ++i) {
      const std::size_t next = (i + 1) % n;
      if (!join(i, next, to[i], from[next], round[i])) return std::nullopt;
    }
    Loop out;
    for (std::size_t i = 0; i < n; ++i) {
      const auto bulge = bulge_of(moved_[i], from[i], to[i]);
      if (!bulge) return std::nullopt;
      out.vertices.push_back({from[i], *bulge});
      if (round[i] != 0) out.vertices.push_back({to[i], round[i]});
    }
    return flaw_in({out, {}}) ? std::nullopt : std::optional(out);
  }

 private:
  [[nodiscard]] bool join(std::size_t i, std::size_t next, Vec2& end, Vec2& start, double& bulge) const {
    const Moved& a = moved_[i];
    const Moved& b = moved_[next];
    end = a.to;
    start = b.from;
    const double turn = std::atan2(cross(a.ends, b.begins), dot(a.ends, b.begins));
    if (std::abs(turn) < smooth_rad) return true;
    if (turn * by_ > 0) {
      bulge = std::tan(turn / 4);
      return true;
    }
    const auto at = crossing(a, b, edges_[i].to);
    if (!at) return false;
    end = start = *at;
    return true;
  }

  std::vector<Edge> edges_;
  double by_;
  std::vector<Moved> moved_;
};

}  // namespace

std::optional<Loop> offset(const Loop& loop, double by_mm) {
  if (by_mm == 0) return loop;
  if (const auto circle = loop.as_circle()) {
    if (circle->radius + by_mm <= same_mm) return std::nullopt;
    return Loop::circle(circle->centre, circle->radius + by_mm);
  }
  return Offset(loop, by_mm).run();
}

std::optional<Profile> offset(const Profile& profile, double by_mm) {
  const auto outer = offset(profile.outer, by_mm);
  if (!outer) return std::nullopt;
  Profile out{*outer, {}};
  for (const Loop& hole : profile.holes) {
    const auto smaller = offset(hole, -by_mm);
    if (!smaller) return std::nullopt;
    out.holes.push_back(*smaller);
  }
  return out;
}

}  // namespace fitup::geometry

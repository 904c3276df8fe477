// A profile made ready for questions: its outline in pieces, what lies inside, special shapes.
// Entry: Region::Region, Region::contains.
#include "geometry/region.h"

#include <algorithm>
#include <cmath>

#include "fitup/tolerances.h"
#include "geometry/crossings.h"
#include "geometry/intersect.h"

namespace fitup::geometry {

namespace {

// A bulge so small that the arc leaves its chord by less than rounding is a line: its radius would be noise.
constexpr double flat_bulge = 1e-10;

std::optional<Box2> plain_rectangle(const Profile& profile) {
  const auto& corners = profile.outer.vertices;
  if (!profile.holes.empty() || corners.size() != 4) return std::nullopt;
  const Box2 box = profile.outer.bounds();
  for (std::size_t i = 0; i < 4; ++i) {
    const Vec2 a = corners[i].at;
    const Vec2 b = corners[(i + 1) % 4].at;
    if (corners[i].bulge != 0 || (a.x != b.x && a.y != b.y)) return std::nullopt;
    const bool corner_of_box = (a.x == box.low.x || a.x == box.high.x) && (a.y == box.low.y || a.y == box.high.y);
    if (!corner_of_box) return std::nullopt;
  }
  return box;
}

}  // namespace

Vec2 Stretch::at(double s) const {
  if (straight) return edge.from + s * (edge.to - edge.from);
  const double angle = arc.start + s * arc.sweep;
  return arc.centre + arc.radius * Vec2{std::cos(angle), std::sin(angle)};
}

double Stretch::distance_mm(Vec2 p) const { return geometry::distance_mm(edge, arc, p); }

Stretch stretch_of(const Edge& edge) {
  Stretch s;
  s.edge = edge;
  s.straight = std::abs(edge.bulge) < flat_bulge;
  if (s.straight) {
    s.edge.bulge = 0;
    s.length_mm = norm(edge.to - edge.from);
  } else {
    s.arc = edge.arc();
    s.length_mm = std::abs(s.arc.sweep) * s.arc.radius;
  }
  s.box = s.edge.bounds();
  return s;
}

Region::Region(Profile profile) : profile_(std::move(profile)) {
  add_loop(profile_.outer);
  bounds_ = profile_.outer.bounds();
  for (const Loop& hole : profile_.holes) {
    add_loop(hole);
    if (const auto round = hole.as_circle()) round_holes_.push_back(*round);
  }
  if (profile_.holes.empty()) disc_ = profile_.outer.as_circle();
  rectangle_ = plain_rectangle(profile_);
}

void Region::add_loop(const Loop& loop) {
  for (const Edge& edge : loop.edges()) {
    const Stretch s = stretch_of(edge);
    if (s.length_mm == 0) continue;
    outline_.push_back(s);
    add_monotone(s);
  }
}

std::vector<double> turns_of(const Stretch& s, Axis2 axis) {
  std::vector<double> turns;
  const double step = M_PI;
  const double first = axis == Axis2::x ? 0 : M_PI / 2;
  const double low = std::min(s.arc.start, s.arc.start + s.arc.sweep);
  const double high = std::max(s.arc.start, s.arc.start + s.arc.sweep);
  for (int i = static_cast<int>(std::ceil((low - first) / step)); first + i * step < high; ++i) {
    const double at = (first + i * step - s.arc.start) / s.arc.sweep;
    if (at > 0 && at < 1) turns.push_back(at);
  }
  std::sort(turns.begin(), turns.end());
  return turns;
}

void Region::add_monotone(const Stretch& s) {
  if (s.straight) {
    monotone_.push_back({s.edge.from, s.edge.to, {}, 0, false});
    return;
  }
  std::vector<double> turns = turns_of(s, Axis2::y);
  turns.push_back(1);
  Vec2 from = s.edge.from;
  double at = 0;
  for (const double next : turns) {
    const Vec2 to = next == 1 ? s.edge.to : s.at(next);
    monotone_.push_back({from, to, s.arc.centre, s.arc.radius, s.at((at + next) / 2).x > s.arc.centre.x});
    from = to;
    at = next;
  }
}

bool Region::contains(Vec2 p) const {
  bool inside = false;
  for (const Monotone& m : monotone_) {
    // Half-open in y: a corner belongs to exactly one of two pieces that pass through it.
    if ((m.from.y <= p.y) == (m.to.y <= p.y)) continue;
    double x = 0;
    if (m.radius == 0) {
      x = m.from.x + (p.y - m.from.y) / (m.to.y - m.from.y) * (m.to.x - m.from.x);
    } else {
      const double up = p.y - m.centre.y;
      const double half = std::sqrt(std::max(0.0, (m.radius - up) * (m.radius + up)));
      x = m.right ? m.centre.x + half : m.centre.x - half;
    }
    if (x > p.x) inside = !inside;
  }
  return inside;
}

double Region::distance_to_outline_mm(Vec2 p) const {
  double least = 1e300;
  for (const Stretch& s : outline_) least = std::min(least, s.distance_mm(p));
  return least;
}

// Level lines at uneven heights: each is cut by the outline, the middles of the pieces inside are candidates.
Vec2 Region::find_inner_point() const {
  Vec2 best = bounds_.low;
  double depth = -1;
  const double height = bounds_.size().y;
  for (const double part : {0.4871, 0.0512, 0.9437, 0.2719, 0.7353, 0.0089, 0.9913}) {
    const double y = bounds_.low.y + part * height;
    std::vector<double> at;
    for (const Stretch& s : outline_) {
      std::vector<double> hits;
      cross_line(s, {0, y}, {1, 0}, hits);
      for (const double h : hits) at.push_back(s.at(h).x);
    }
    std::sort(at.begin(), at.end());
    for (std::size_t i = 0; i + 1 < at.size(); ++i) {
      // The outline is no farther than the piece's own ends.
      if ((at[i + 1] - at[i]) / 2 <= depth) continue;
      const Vec2 middle{(at[i] + at[i + 1]) / 2, y};
      const double d = distance_to_outline_mm(middle);
      if (d > depth && contains(middle)) {
        depth = d;
        best = middle;
      }
    }
  }
  return best;
}

Region Region::moved(Vec2 by) const {
  Region result = *this;
  result.profile_.outer = profile_.outer.moved(by);
  for (Loop& hole : result.profile_.holes) hole = hole.moved(by);
  for (Stretch& s : result.outline_) {
    s.edge.from = s.edge.from + by;
    s.edge.to = s.edge.to + by;
    s.arc.centre = s.arc.centre + by;
    s.box = {s.box.low + by, s.box.high + by};
  }
  for (Monotone& m : result.monotone_) {
    m.from = m.from + by;
    m.to = m.to + by;
    m.centre = m.centre + by;
  }
  result.bounds_ = {bounds_.low + by, bounds_.high + by};
  result.inner_.move(by);
  if (disc_) result.disc_->centre = disc_->centre + by;
  if (rectangle_) result.rectangle_ = result.bounds_;
  for (Circle& hole : result.round_holes_) hole.centre = hole.centre + by;
  return result;
}

}  // namespace fitup::geometry

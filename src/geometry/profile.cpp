// Loops and profiles of lines and arcs: making, measuring.
// Entry: Loop::circle and its sisters, Loop::area_mm2, Profile::centroid.
#include <algorithm>
#include <cmath>

#include "fitup/geometry.h"
#include "fitup/tolerances.h"

namespace fitup {

Arc Edge::arc() const {
  const Vec2 chord = to - from;
  // The centre stands off the chord's middle by (1 - b^2) / (4 b) of the chord, on its left for b > 0.
  const double off = (1 - bulge * bulge) / (4 * bulge);
  const Vec2 centre = 0.5 * (from + to) + off * Vec2{-chord.y, chord.x};
  const Vec2 d = from - centre;
  return {centre, norm(d), std::atan2(d.y, d.x), 4 * std::atan(bulge)};
}

double Arc::turn_to(Vec2 direction, double slack_rad) const {
  constexpr double turn = 2 * M_PI;
  const double angle = std::atan2(direction.y, direction.x);
  const double d = sweep > 0 ? angle - start : start - angle;
  return d - turn * std::floor((d + slack_rad) / turn);
}

bool Arc::passes(Vec2 direction, double slack_rad) const {
  return turn_to(direction, slack_rad) <= std::abs(sweep) + slack_rad;
}

double Edge::length_mm() const {
  if (straight()) return norm(to - from);
  const Arc a = arc();
  return a.radius * std::abs(a.sweep);
}

Loop Loop::circle(Vec2 centre, double radius_mm) {
  return {{{{centre.x + radius_mm, centre.y}, 1}, {{centre.x - radius_mm, centre.y}, 1}}};
}

Loop Loop::rectangle(Vec2 low, Vec2 high) { return polygon({low, {high.x, low.y}, high, {low.x, high.y}}); }

Loop Loop::rounded_rectangle(Vec2 low, Vec2 high, double radius_mm) {
  if (radius_mm <= 0) return rectangle(low, high);
  const double r = radius_mm;
  const double quarter = std::tan(M_PI / 8);
  const std::vector<Vertex> corners{
      {{low.x + r, low.y}},   {{high.x - r, low.y}, quarter}, {{high.x, low.y + r}}, {{high.x, high.y - r}, quarter},
      {{high.x - r, high.y}}, {{low.x + r, high.y}, quarter}, {{low.x, high.y - r}}, {{low.x, low.y + r}, quarter}};
  Loop loop;
  for (std::size_t i = 0; i < corners.size(); ++i) {
    const Vec2 next = corners[(i + 1) % corners.size()].at;
    if (norm(next - corners[i].at) > tolerance::coincident_mm) loop.vertices.push_back(corners[i]);
  }
  return loop;
}

Loop Loop::hexagon(Vec2 centre, double across_flats_mm) {
  const double r = across_flats_mm / std::sqrt(3.0);
  std::vector<Vec2> corners;
  corners.reserve(6);
  for (int i = 0; i < 6; ++i) {
    corners.push_back(centre + r * Vec2{std::cos(i * M_PI / 3), std::sin(i * M_PI / 3)});
  }
  return polygon(corners);
}

Loop Loop::polygon(const std::vector<Vec2>& corners) {
  Loop loop;
  for (const Vec2 c : corners) loop.vertices.push_back({c, 0});
  return loop;
}

Loop Loop::reversed() const {
  Loop back;
  const std::size_t n = vertices.size();
  back.vertices.reserve(n);
  for (std::size_t i = 0; i < n; ++i) {
    back.vertices.push_back({vertices[n - 1 - i].at, -vertices[(2 * n - 2 - i) % n].bulge});
  }
  return back;
}

Loop Loop::moved(Vec2 by) const {
  Loop there = *this;
  for (Vertex& v : there.vertices) v.at = v.at + by;
  return there;
}

std::vector<Edge> Loop::edges() const {
  std::vector<Edge> result;
  result.reserve(vertices.size());
  for (std::size_t i = 0; i < vertices.size(); ++i) {
    result.push_back({vertices[i].at, vertices[(i + 1) % vertices.size()].at, vertices[i].bulge});
  }
  return result;
}

std::optional<Circle> Loop::as_circle() const {
  if (vertices.size() != 2 || vertices[0].bulge != 1 || vertices[1].bulge != 1) return std::nullopt;
  return Circle{0.5 * (vertices[0].at + vertices[1].at), 0.5 * norm(vertices[0].at - vertices[1].at)};
}

double Loop::area_mm2() const {
  if (const auto c = as_circle()) return M_PI * c->radius * c->radius;
  double twice = 0;
  const Vec2 base = vertices.empty() ? Vec2{} : vertices.front().at;
  for (const Edge& e : edges()) {
    twice += cross(e.from - base, e.to - base);
    if (e.straight()) continue;
    const Arc a = e.arc();
    twice += a.radius * a.radius * (a.sweep - std::sin(a.sweep));
  }
  return twice / 2;
}

double Loop::perimeter_mm() const {
  double sum = 0;
  for (const Edge& e : edges()) sum += e.length_mm();
  return sum;
}

Box2 Loop::bounds() const {
  Box2 box;
  for (const Edge& e : edges()) {
    const Box2 b = e.bounds();
    box.add(b.low);
    box.add(b.high);
  }
  return box;
}

namespace {

// First moment of area of a loop about the origin: chord polygon plus circular segments.
Vec2 first_moment(const Loop& loop) {
  if (const auto c = loop.as_circle()) return (M_PI * c->radius * c->radius) * c->centre;
  Vec2 moment;
  for (const Edge& e : loop.edges()) {
    const double twice = cross(e.from, e.to);
    moment = moment + (twice / 6) * (e.from + e.to);
    if (e.straight()) continue;
    const Arc a = e.arc();
    const double area = a.radius * a.radius * (a.sweep - std::sin(a.sweep)) / 2;
    const double half = a.sweep / 2;
    // Centroid of a segment from the circle's centre: 4 r sin^3(half) / (3 (sweep - sin sweep)), along the bisector.
    const double middle = a.start + half;
    const double lever_times_area = 2 * std::pow(a.radius, 3) * std::pow(std::sin(std::abs(half)), 3) / 3;
    moment =
        moment + area * a.centre + std::copysign(lever_times_area, area) * Vec2{std::cos(middle), std::sin(middle)};
  }
  return moment;
}

}  // namespace

double Profile::area_mm2() const {
  double area = outer.area_mm2();
  for (const Loop& h : holes) area -= h.area_mm2();
  return area;
}

Vec2 Profile::centroid() const {
  Vec2 moment = first_moment(outer);
  for (const Loop& h : holes) moment = moment - first_moment(h);
  return (1 / area_mm2()) * moment;
}

double Profile::perimeter_mm() const {
  double sum = outer.perimeter_mm();
  for (const Loop& h : holes) sum += h.perimeter_mm();
  return sum;
}

Box2 Profile::bounds() const { return outer.bounds(); }

}  // namespace fitup

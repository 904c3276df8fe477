// Points, directions, poses and boxes.
// Entry: Pose::at, operator*.
#include "fitup/geometry.h"

#include <algorithm>
#include <cmath>

namespace fitup {

double dot(Vec2 a, Vec2 b) { return a.x * b.x + a.y * b.y; }
double cross(Vec2 a, Vec2 b) { return a.x * b.y - a.y * b.x; }
double norm(Vec2 a) { return std::hypot(a.x, a.y); }
double dot(Vec3 a, Vec3 b) { return a.x * b.x + a.y * b.y + a.z * b.z; }
Vec3 cross(Vec3 a, Vec3 b) { return {a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x}; }
double norm(Vec3 a) { return std::hypot(a.x, a.y, a.z); }

Pose Pose::at(Vec3 origin, Vec3 x_direction, Vec3 y_direction) {
  Pose p;
  p.origin_ = origin;
  p.x_ = x_direction;
  p.y_ = y_direction;
  p.z_ = cross(x_direction, y_direction);
  return p;
}

Vec3 Pose::turn(Vec3 local) const { return local.x * x_ + local.y * y_ + local.z * z_; }
Vec3 Pose::point(Vec3 local) const { return origin_ + turn(local); }

Vec3 Pose::local(Vec3 world) const {
  const Vec3 d = world - origin_;
  return {dot(d, x_), dot(d, y_), dot(d, z_)};
}

Pose Pose::moved(Vec3 by) const { return at(origin_ + by, x_, y_); }

Pose operator*(const Pose& a, const Pose& b) { return Pose::at(a.point(b.origin_), a.turn(b.x_), a.turn(b.y_)); }

Pose Pose::inverse() const {
  const Vec3 x{x_.x, y_.x, z_.x};
  const Vec3 y{x_.y, y_.y, z_.y};
  return at(Vec3{} - Vec3{dot(origin_, x_), dot(origin_, y_), dot(origin_, z_)}, x, y);
}

void Box3::add(Vec3 p) {
  low = {std::min(low.x, p.x), std::min(low.y, p.y), std::min(low.z, p.z)};
  high = {std::max(high.x, p.x), std::max(high.y, p.y), std::max(high.z, p.z)};
}

void Box3::add(const Box3& b) {
  if (b.empty()) return;
  add(b.low);
  add(b.high);
}

void Box2::add(Vec2 p) {
  low = {std::min(low.x, p.x), std::min(low.y, p.y)};
  high = {std::max(high.x, p.x), std::max(high.y, p.y)};
}

namespace {

// The interval of a profile along one direction of its plane; exact for arcs.
struct Span {
  double low = 1e300;
  double high = -1e300;
  void add(double v) {
    low = std::min(low, v);
    high = std::max(high, v);
  }
};

/// `directions`: one for each span.
template <std::size_t N>
void add_edge(std::array<Span, N>& spans, const Edge& edge, const std::array<Vec2, N>& directions) {
  for (std::size_t i = 0; i < N; ++i) {
    spans[i].add(dot(edge.from, directions[i]));
    spans[i].add(dot(edge.to, directions[i]));
  }
  if (edge.straight()) return;
  const Arc arc = edge.arc();
  for (std::size_t i = 0; i < N; ++i) {
    const double reach = arc.radius * norm(directions[i]);
    if (arc.passes(directions[i])) spans[i].add(dot(arc.centre, directions[i]) + reach);
    if (arc.passes(-1 * directions[i])) spans[i].add(dot(arc.centre, directions[i]) - reach);
  }
}

}  // namespace

Box3 Prism::bounds() const {
  const std::array<Vec3, 3> axes{axis::x, axis::y, axis::z};
  std::array<double, 3> low{};
  std::array<double, 3> high{};
  std::array<Vec2, 3> in_plane{};
  for (std::size_t i = 0; i < 3; ++i) in_plane[i] = {dot(pose.x(), axes[i]), dot(pose.y(), axes[i])};
  std::array<Span, 3> spans{};
  for (const Edge& e : profile.outer.edges()) add_edge(spans, e, in_plane);
  for (std::size_t i = 0; i < 3; ++i) {
    const double along = length_mm * dot(pose.z(), axes[i]);
    const double base = dot(pose.origin(), axes[i]);
    low[i] = base + spans[i].low + std::min(0.0, along);
    high[i] = base + spans[i].high + std::max(0.0, along);
  }
  Box3 box;
  box.low = {low[0], low[1], low[2]};
  box.high = {high[0], high[1], high[2]};
  return box;
}

Box2 Edge::bounds() const {
  std::array<Span, 2> spans{};
  add_edge(spans, *this, std::array<Vec2, 2>{Vec2{1, 0}, Vec2{0, 1}});
  return {{spans[0].low, spans[1].low}, {spans[0].high, spans[1].high}};
}

}  // namespace fitup

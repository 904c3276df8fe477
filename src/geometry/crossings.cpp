// Parameters at which a stretch crosses a line or a circle.
// Entry: cross_line, cross_circle.
#include "geometry/crossings.h"

#include <cmath>

namespace fitup::geometry {

namespace {

void keep(double s, std::vector<double>& out) {
  if (s > 0 && s < 1) out.push_back(s);
}

// The parameter of a point on the arc's circle; outside 0..1 where the arc does not reach it.
double parameter_on(const Arc& arc, Vec2 p) { return arc.turn_to(p - arc.centre) / std::abs(arc.sweep); }

}  // namespace

void cross_line(const Stretch& s, Vec2 through, Vec2 direction, std::vector<double>& out) {
  if (s.straight) {
    const Vec2 d = s.edge.to - s.edge.from;
    const double det = cross(d, direction);
    if (std::abs(det) < 1e-14 * norm(d) * norm(direction)) return;
    keep(cross(through - s.edge.from, direction) / det, out);
    return;
  }
  const Vec2 u = (1 / norm(direction)) * direction;
  const Vec2 foot = through + dot(s.arc.centre - through, u) * u;
  const double off = norm(foot - s.arc.centre);
  if (off > s.arc.radius) return;
  const double half = std::sqrt((s.arc.radius - off) * (s.arc.radius + off));
  keep(parameter_on(s.arc, foot + half * u), out);
  keep(parameter_on(s.arc, foot - half * u), out);
}

void cross_circle(const Stretch& s, Vec2 centre, double radius_mm, std::vector<double>& out) {
  if (radius_mm <= 0) return;
  if (s.straight) {
    const Vec2 d = s.edge.to - s.edge.from;
    const Vec2 u = (1 / s.length_mm) * d;
    const double along = dot(centre - s.edge.from, u);
    const double off = norm(s.edge.from + along * u - centre);
    if (off > radius_mm) return;
    const double half = std::sqrt((radius_mm - off) * (radius_mm + off));
    keep((along - half) / s.length_mm, out);
    keep((along + half) / s.length_mm, out);
    return;
  }
  const double d = norm(centre - s.arc.centre);
  if (d == 0 || d > s.arc.radius + radius_mm || d < std::abs(s.arc.radius - radius_mm)) return;
  const Vec2 u = (1 / d) * (centre - s.arc.centre);
  const double along = (d * d + (s.arc.radius - radius_mm) * (s.arc.radius + radius_mm)) / (2 * d);
  const double half = std::sqrt(std::max(0.0, (s.arc.radius - along) * (s.arc.radius + along)));
  const Vec2 foot = s.arc.centre + along * u;
  keep(parameter_on(s.arc, foot + half * Vec2{-u.y, u.x}), out);
  keep(parameter_on(s.arc, foot - half * Vec2{-u.y, u.x}), out);
}

}  // namespace fitup::geometry

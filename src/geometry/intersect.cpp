// Where two edges meet, and on which side of a loop a point lies.
// Entry: common_points, side_of.
#include "geometry/intersect.h"

#include <algorithm>
#include <cmath>

#include "fitup/tolerances.h"

namespace fitup::geometry {

namespace {

constexpr double near_mm = tolerance::coincident_mm;

bool on_arc(const Arc& arc, Vec2 p) { return arc.passes(p - arc.centre, near_mm / arc.radius); }

bool on_segment(const Edge& e, Vec2 p) {
  const Vec2 d = e.to - e.from;
  const double length = norm(d);
  if (length < near_mm) return norm(p - e.from) <= near_mm;
  const double t = dot(p - e.from, d) / length;
  return t >= -near_mm && t <= length + near_mm;
}

void line_line(const Edge& a, const Edge& b, std::vector<Vec2>& out) {
  const Vec2 da = a.to - a.from;
  const Vec2 db = b.to - b.from;
  const double det = cross(da, db);
  if (std::abs(det) <= tolerance::direction * norm(da) * norm(db)) {
    for (const Vec2 p : {b.from, b.to})
      if (distance_mm(a, p) <= near_mm) out.push_back(p);
    for (const Vec2 p : {a.from, a.to})
      if (distance_mm(b, p) <= near_mm) out.push_back(p);
    return;
  }
  const Vec2 p = a.from + (cross(b.from - a.from, db) / det) * da;
  if (on_segment(a, p) && on_segment(b, p)) out.push_back(p);
}

void line_arc(const Edge& line, const Arc& arc, std::vector<Vec2>& out) {
  const Vec2 d = line.to - line.from;
  const double length = norm(d);
  if (length < near_mm) return;
  const Vec2 u = (1 / length) * d;
  const double t = dot(arc.centre - line.from, u);
  const Vec2 foot = line.from + t * u;
  const double off = norm(foot - arc.centre);
  if (off > arc.radius + near_mm) return;
  const double half = std::sqrt(std::max(0.0, arc.radius * arc.radius - off * off));
  for (const double s : {-half, half}) {
    const Vec2 p = foot + s * u;
    if (on_segment(line, p) && on_arc(arc, p)) out.push_back(p);
    if (half == 0) break;
  }
}

// Of one circle: the ends of each that lie on the other.
void along_one_circle(const Edge& ea, const Arc& a, const Edge& eb, const Arc& b, std::vector<Vec2>& out) {
  for (const Vec2 p : {eb.from, eb.to}) {
    if (on_arc(a, p)) out.push_back(p);
  }
  for (const Vec2 p : {ea.from, ea.to}) {
    if (on_arc(b, p)) out.push_back(p);
  }
}

void arc_arc(const Edge& ea, const Edge& eb, std::vector<Vec2>& out) {
  const Arc a = ea.arc();
  const Arc b = eb.arc();
  const double d = norm(b.centre - a.centre);
  if (d < near_mm) {
    if (std::abs(a.radius - b.radius) <= near_mm) along_one_circle(ea, a, eb, b, out);
    return;
  }
  if (d > a.radius + b.radius + near_mm || d < std::abs(a.radius - b.radius) - near_mm) return;
  const Vec2 u = (1 / d) * (b.centre - a.centre);
  const double along = (d * d + a.radius * a.radius - b.radius * b.radius) / (2 * d);
  const double half = std::sqrt(std::max(0.0, a.radius * a.radius - along * along));
  for (const double s : {-half, half}) {
    const Vec2 p = a.centre + along * u + s * Vec2{-u.y, u.x};
    if (on_arc(a, p) && on_arc(b, p)) out.push_back(p);
    if (half == 0) break;
  }
}

// Signed area swept by the edge as seen from p, as an angle: the winding number's share of one edge.
double winding_angle(const Edge& e, Vec2 p) {
  const Vec2 a = e.from - p;
  const Vec2 b = e.to - p;
  const double chord = std::atan2(cross(a, b), dot(a, b));
  if (e.straight()) return chord;
  const Arc arc = e.arc();
  const bool in_circle = norm(p - arc.centre) < arc.radius;
  const double side = cross(e.to - e.from, p - e.from);
  // On the chord itself the rounding of `side` must not decide: the arc passes on its own side.
  const bool on_chord = std::abs(side) <= tolerance::coincident_mm * norm(e.to - e.from);
  if (in_circle && on_chord && dot(a, b) < 0) return std::copysign(M_PI, e.bulge);
  // Between chord and arc the arc passes on the other side of p than the chord does.
  if (in_circle && e.bulge > 0 && side < 0) return chord + 2 * M_PI;
  if (in_circle && e.bulge < 0 && side > 0) return chord - 2 * M_PI;
  return chord;
}

}  // namespace

double distance_mm(const Edge& edge, const Arc& arc, Vec2 p) {
  if (!edge.straight()) {
    const Vec2 r = p - arc.centre;
    if (arc.passes(r)) return std::abs(norm(r) - arc.radius);
    return std::min(norm(p - edge.from), norm(p - edge.to));
  }
  const Vec2 d = edge.to - edge.from;
  const double length2 = dot(d, d);
  const double t = length2 > 0 ? std::clamp(dot(p - edge.from, d) / length2, 0.0, 1.0) : 0.0;
  return norm(p - (edge.from + t * d));
}

double distance_mm(const Edge& edge, Vec2 p) { return distance_mm(edge, edge.straight() ? Arc{} : edge.arc(), p); }

namespace {

// The foot of the perpendicular on the edge's line.
Vec2 foot_on(const Edge& line, Vec2 p) {
  const Vec2 d = line.to - line.from;
  return line.from + (dot(p - line.from, d) / dot(d, d)) * d;
}

// Where the straight way from the arc's centre to the other edge passes the arc.
std::vector<Vec2> on_the_way(const Arc& arc, const Edge& other) {
  const Vec2 towards = other.straight() ? foot_on(other, arc.centre) - arc.centre : other.arc().centre - arc.centre;
  const double length = norm(towards);
  std::vector<Vec2> out;
  if (length < near_mm) return out;
  for (const double sign : {1.0, -1.0}) {
    if (arc.passes(sign * towards)) out.push_back(arc.centre + (sign * arc.radius / length) * towards);
  }
  return out;
}

// Two edges that do not meet are nearest at an end of one, or there.
NearestPlace from_places_of(const Edge& a, const Edge& b) {
  std::vector<Vec2> places{a.from, a.to};
  if (!a.straight()) {
    const auto more = on_the_way(a.arc(), b);
    places.insert(places.end(), more.begin(), more.end());
  }
  NearestPlace nearest;
  for (const Vec2 p : places) {
    const double d = distance_mm(b, p);
    if (d < nearest.distance_mm) nearest = {d, p};
  }
  return nearest;
}

}  // namespace

NearestPlace nearest_place(const Edge& a, const Edge& b) {
  const auto common = common_points(a, b);
  if (!common.empty()) return {0, common.front()};
  const NearestPlace of_a = from_places_of(a, b);
  const NearestPlace of_b = from_places_of(b, a);
  return of_a.distance_mm <= of_b.distance_mm ? of_a : of_b;
}

bool apart(const Box2& a, const Box2& b, double band_mm) {
  return a.low.x > b.high.x + band_mm || b.low.x > a.high.x + band_mm || a.low.y > b.high.y + band_mm ||
         b.low.y > a.high.y + band_mm;
}

std::vector<Vec2> common_points(const Edge& a, const Edge& b) {
  std::vector<Vec2> found;
  if (a.straight() && b.straight()) {
    line_line(a, b, found);
  } else if (a.straight()) {
    line_arc(a, b.arc(), found);
  } else if (b.straight()) {
    line_arc(b, a.arc(), found);
  } else {
    arc_arc(a, b, found);
  }
  std::vector<Vec2> unique;
  for (const Vec2 p : found) {
    const bool seen = std::any_of(unique.begin(), unique.end(), [p](Vec2 q) { return norm(p - q) <= near_mm; });
    if (!seen) unique.push_back(p);
  }
  return unique;
}

Side side_of(const Loop& loop, Vec2 p) {
  double angle = 0;
  for (const Edge& e : loop.edges()) {
    if (distance_mm(e, p) <= near_mm) return Side::on;
    angle += winding_angle(e, p);
  }
  return std::abs(angle) > M_PI ? Side::inside : Side::outside;
}

}  // namespace fitup::geometry

// Turns the entities of a DXF file into lines and arcs.
// Entry: draw_outline, draw_old_polyline.
#include "inspect/draw.h"

#include <algorithm>
#include <cmath>

#include "inspect/curves.h"

namespace fitup::inspect {

namespace {

constexpr double level = 1e-6;
// Nearer than this, in units of the drawing, two ends are one point.
constexpr double no_length = 1e-9;

bool near_enough(Vec2 p) { return std::abs(p.x) <= farthest && std::abs(p.y) <= farthest; }

// A bulge below makes no arc that anyone sees, one above no arc that rounding leaves whole.
constexpr double least_bulge = 1e-7;
constexpr double most_bulge = 1e4;

double radians(double degrees) { return std::fmod(degrees, 360.0) * M_PI / 180; }

class Hand {
 public:
  Hand(const Pen& pen, DrawnAs as) : pen_(pen), as_(as) {}

  /// An edge in the entity's own coordinates.
  void edge(const Edge& e) {
    if (e.straight() || pen_.placing.keeps_shape()) {
      put({pen_.placing.point(e.from), pen_.placing.point(e.to), pen_.placing.mirrors() ? -e.bulge : e.bulge}, as_);
      return;
    }
    const Arc arc = e.arc();
    const double end = arc.start + arc.sweep;
    auto points = ellipse_points(arc.centre, {arc.radius, 0}, {0, arc.radius}, std::min(arc.start, end),
                                 std::max(arc.start, end));
    if (arc.sweep < 0) std::reverse(points.begin(), points.end());
    points.front() = e.from;
    points.back() = e.to;
    for (std::size_t i = 0; i + 1 < points.size(); ++i) {
      put({pen_.placing.point(points[i]), pen_.placing.point(points[i + 1]), 0}, DrawnAs::ellipse);
    }
    if (!pen_.thin) ++pen_.drawing.ellipses[pen_.layer];
  }

  /// Corners with bulges; a chain that is closed becomes a shape.
  void chain(std::vector<Vertex> corners, bool closed) {
    for (Vertex& v : corners) {
      if (std::abs(v.bulge) > most_bulge) ++pen_.drawing.broken;
      if (std::abs(v.bulge) > most_bulge || std::abs(v.bulge) < least_bulge) v.bulge = 0;
    }
    if (corners.size() < 2) {
      if (!corners.empty()) pen_.drawing.no_length.push_back(pen_.placing.point(corners.front().at));
      return;
    }
    if (closed && pen_.placing.keeps_shape() && !pen_.thin) return shape(corners);
    const std::size_t count = closed ? corners.size() : corners.size() - 1;
    for (std::size_t i = 0; i < count; ++i) {
      edge({corners[i].at, corners[(i + 1) % corners.size()].at, corners[i].bulge});
    }
  }

  void shape(const std::vector<Vertex>& corners) {
    if (!room(corners.size())) return;
    Loop loop;
    loop.vertices.reserve(corners.size());
    for (std::size_t i = 0; i < corners.size(); ++i) {
      const Vec2 p = pen_.placing.point(corners[i].at);
      if (!near_enough(p)) return far_away();
      const Vec2 next = pen_.placing.point(corners[(i + 1) % corners.size()].at);
      if (norm(next - p) <= no_length) {
        // A closed polyline often repeats its first corner: nobody sees that. In the middle it is an edge of nothing.
        if (i + 1 != corners.size()) pen_.drawing.no_length.push_back(p);
        continue;
      }
      loop.vertices.push_back({p, pen_.placing.mirrors() ? -corners[i].bulge : corners[i].bulge});
    }
    if (loop.vertices.size() < 2) return pen_.drawing.no_length.push_back(pen_.placing.point(corners.front().at));
    pen_.drawing.shapes.push_back({std::move(loop), pen_.layer, as_});
  }

 private:
  void put(const Edge& e, DrawnAs as) {
    const bool near =
        near_enough(e.from) && near_enough(e.to) && (e.straight() || e.arc().radius <= farthest * farthest);
    if (!near) return far_away();
    if (!room(1)) return;
    if (pen_.thin) return pen_.drawing.thin.push_back({e, pen_.layer, as});
    if (norm(e.to - e.from) <= no_length) return pen_.drawing.no_length.push_back(e.from);
    pen_.drawing.pieces.push_back({e, pen_.layer, as});
  }

  void far_away() { ++pen_.drawing.far_away; }

  bool room(std::size_t more) {
    if (pen_.drawing.held + more > most_pieces) return false;
    pen_.drawing.held += more;
    return true;
  }

  const Pen& pen_;
  DrawnAs as_;
};

void broken(const Pen& pen) { ++pen.drawing.broken; }

void draw_line(const Pen& pen, const DxfEntity& e) {
  const auto from = e.point(10);
  const auto to = e.point(11);
  if (!from || !to) return broken(pen);
  if (std::abs(from->z - to->z) > level) ++pen.drawing.not_flat;
  Hand(pen, DrawnAs::line).edge({{from->x, from->y}, {to->x, to->y}, 0});
}

void draw_circle(const Pen& pen, const DxfEntity& e) {
  const auto centre = e.point(10);
  const auto radius = e.real(40);
  if (!centre || !radius || *radius < 0) return broken(pen);
  const Vec2 c{centre->x, centre->y};
  if (*radius <= no_length) return pen.drawing.no_length.push_back(pen.placing.point(c));
  const bool sheared = !pen.placing.keeps_shape();
  if (*radius > farthest) {
    ++pen.drawing.far_away;
    return;
  }
  const Loop loop = Loop::circle(c, *radius);
  if (!sheared && !pen.thin) {
    // The two halves are put in anew, so that the circle stays one to the last bit.
    const Vec2 there = pen.placing.point(c);
    const double r = *radius * pen.placing.size();
    if (!near_enough(there) || r > farthest) {
      ++pen.drawing.far_away;
      return;
    }
    pen.drawing.shapes.push_back({Loop::circle(there, r), pen.layer, DrawnAs::circle});
    return;
  }
  Hand(pen, DrawnAs::circle).chain(loop.vertices, true);
}

void draw_arc(const Pen& pen, const DxfEntity& e) {
  const auto centre = e.point(10);
  const auto radius = e.real(40);
  const auto from = e.real(50);
  const auto to = e.real(51);
  if (!centre || !radius || *radius < 0 || !from || !to) return broken(pen);
  if (*radius > farthest || !near_enough({centre->x, centre->y})) {
    ++pen.drawing.far_away;
    return;
  }
  const Vec2 c{centre->x, centre->y};
  const double start = radians(*from);
  double sweep = std::fmod(radians(*to) - start + 4 * M_PI, 2 * M_PI);
  if (sweep <= 1e-6) sweep += 2 * M_PI;
  const auto at = [&](double angle) { return c + *radius * Vec2{std::cos(angle), std::sin(angle)}; };
  // A bulge grows without end towards a full turn: in two halves it stays below 1.
  const Vec2 middle = at(start + sweep / 2);
  const double bulge = std::tan(sweep / 8);
  Hand hand(pen, DrawnAs::arc);
  if (sweep < M_PI) return hand.edge({at(start), at(start + sweep), std::tan(sweep / 4)});
  hand.edge({at(start), middle, bulge});
  hand.edge({middle, at(start + sweep), bulge});
}

void draw_curve(const Pen& pen, const std::optional<Curve>& curve, DrawnAs as) {
  if (!curve) return broken(pen);
  if (!curve->flat) ++pen.drawing.not_flat;
  if (!pen.thin) ++(as == DrawnAs::spline ? pen.drawing.splines : pen.drawing.ellipses)[pen.layer];
  std::vector<Vertex> corners;
  corners.reserve(curve->points.size());
  for (const Vec2 p : curve->points) corners.push_back({p, 0});
  Hand(pen, as).chain(corners, curve->closed);
}

void draw_polyline(const Pen& pen, const DxfEntity& e) {
  std::vector<Vertex> corners;
  for (const DxfTag& tag : e.tags) {
    if (tag.code != 10 && tag.code != 20 && tag.code != 42) continue;
    const auto value = real_of(tag.value);
    if (!value || (tag.code != 10 && corners.empty())) return broken(pen);
    if (tag.code == 10) corners.push_back({{*value, 0}, 0});
    if (tag.code == 20) corners.back().at.y = *value;
    if (tag.code == 42) corners.back().bulge = *value;
  }
  Hand(pen, DrawnAs::polyline).chain(corners, (e.whole(70, 0) & 1) != 0);
}

}  // namespace

std::optional<Placing> own_plane(const DxfEntity& entity) {
  const double x = entity.real(210, 0);
  const double y = entity.real(220, 0);
  const double z = entity.real(230, 1);
  if (std::abs(x) > 1e-9 || std::abs(y) > 1e-9 || z == 0) return std::nullopt;
  return z > 0 ? Placing{} : Placing{{-1, 0}, {0, 1}, {}};
}

bool draw_outline(const Pen& pen, const DxfEntity& e) {
  if (pen.drawing.held >= most_pieces) return true;
  // LINE, ELLIPSE and SPLINE are in the drawing's coordinates, the others in their own plane's.
  if (e.type == "LINE") return draw_line(pen, e), true;
  if (e.type == "ELLIPSE") return draw_curve(pen, ellipse_of(e), DrawnAs::ellipse), true;
  if (e.type == "SPLINE") return draw_curve(pen, spline_of(e), DrawnAs::spline), true;
  if (e.type != "CIRCLE" && e.type != "ARC" && e.type != "LWPOLYLINE") return false;
  const auto plane = own_plane(e);
  if (!plane) {
    ++pen.drawing.not_flat;
    return true;
  }
  const Pen own{pen.drawing, pen.placing * *plane, pen.layer, pen.thin};
  if (e.type == "CIRCLE") draw_circle(own, e);
  if (e.type == "ARC") draw_arc(own, e);
  if (e.type == "LWPOLYLINE") draw_polyline(own, e);
  return true;
}

void draw_old_polyline(const Pen& pen, const DxfEntity& head, std::span<const DxfEntity> vertices) {
  if (pen.drawing.held >= most_pieces) return;
  constexpr int closed = 1;
  constexpr int solid_forms = 16 | 64;  // a mesh of faces
  constexpr int frame_point = 16;       // of a vertex: control point of a curve, not on it
  const int flags = head.whole(70, 0);
  const auto plane = own_plane(head);
  if ((flags & solid_forms) != 0 || !plane) {
    ++pen.drawing.not_flat;
    return;
  }
  std::vector<Vertex> corners;
  std::optional<double> height;
  for (const DxfEntity& e : vertices) {
    if ((e.whole(70, 0) & frame_point) != 0) continue;
    const auto at = e.point(10);
    if (!at) return broken(pen);
    if (height && std::abs(at->z - *height) > level) {
      ++pen.drawing.not_flat;
      return;
    }
    height = at->z;
    corners.push_back({{at->x, at->y}, e.real(42, 0)});
  }
  const Pen own{pen.drawing, pen.placing * *plane, pen.layer, pen.thin};
  Hand(own, DrawnAs::polyline).chain(corners, (flags & closed) != 0);
}

}  // namespace fitup::inspect

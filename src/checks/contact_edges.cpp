// The edges of two bodies' faces, split where they meet each other; a piece bounds the contact if the bodies face each
// other on one side of it alone.
// Entry: contact_edges.
#include "checks/contact_edges.h"

#include <algorithm>
#include <cmath>

#include "fitup/tolerances.h"
#include "geometry/intersect.h"

namespace fitup::checks {

namespace {

constexpr double band = tolerance::contact_mm;

double at_on(const Edge& edge, Vec2 p) {
  const Vec2 way = edge.to - edge.from;
  return dot(p - edge.from, way) / dot(way, way);
}

Vec2 on(const Edge& edge, double s) { return edge.from + s * (edge.to - edge.from); }

std::vector<double> sorted_places(std::vector<double> places, double shortest) {
  std::sort(places.begin(), places.end());
  std::vector<double> out;
  for (const double s : places) {
    if (s < 0 || s > 1) continue;
    if (out.empty() || s - out.back() > shortest) out.push_back(s);
  }
  return out;
}

// Which side of the piece the contact lies on: the unit direction away from it, or zero if on neither or both.
Vec2 out_of(const Facing& facing, Vec2 from, Vec2 to) {
  const Vec2 way = (1 / norm(to - from)) * (to - from);
  const Vec2 left{-way.y, way.x};
  const Vec2 middle = 0.5 * (from + to);
  const bool meets_left = facing.meet(middle + probe_mm * left);
  const bool meets_right = facing.meet(middle - probe_mm * left);
  if (meets_left == meets_right) return {};
  return meets_left ? -1.0 * left : left;
}

// Steps that bound a chamfer leave edges side by side that no probe tells apart.
bool covers(const ContactEdge& a, const ContactEdge& b) {
  const Vec2 way = (1 / norm(a.to - a.from)) * (a.to - a.from);
  const Vec2 middle = 0.5 * (b.from + b.to) - a.from;
  const double along = dot(middle, way);
  return norm(a.out - b.out) <= band && std::abs(dot(middle, a.out)) <= 2 * probe_mm && along >= -band &&
         along <= norm(a.to - a.from) + band;
}

// Of two that lie on each other the longer one, as far out as the other.
void add_once(const ContactEdge& piece, std::vector<ContactEdge>& out) {
  for (ContactEdge& known : out) {
    if (!covers(known, piece) && !covers(piece, known)) continue;
    const double outermost = std::max(dot(piece.from, piece.out), dot(known.from, known.out));
    if (norm(piece.to - piece.from) > norm(known.to - known.from)) known = piece;
    const Vec2 by = (outermost - dot(known.from, known.out)) * known.out;
    known.from = known.from + by;
    known.to = known.to + by;
    return;
  }
  out.push_back(piece);
}

std::vector<ContactEdge> split_at(const ContactEdge& piece, const std::vector<Vec2>& breaks) {
  const Edge edge{piece.from, piece.to, 0};
  std::vector<double> places{0, 1};
  for (const Vec2 p : breaks) places.push_back(at_on(edge, p));
  places = sorted_places(std::move(places), band / edge.length_mm());
  std::vector<ContactEdge> out;
  for (std::size_t i = 0; i + 1 < places.size(); ++i) {
    out.push_back({on(edge, places[i]), on(edge, places[i + 1]), piece.out});
  }
  return out;
}

std::vector<ContactEdge> pieces_of(const Facing& facing, const Edge& edge, const std::vector<Edge>& edges) {
  std::vector<double> places{0, 1};
  for (const Edge& other : edges) {
    for (const Vec2 p : geometry::common_points(edge, other)) places.push_back(at_on(edge, p));
  }
  places = sorted_places(std::move(places), band / edge.length_mm());
  std::vector<ContactEdge> out;
  for (std::size_t i = 0; i + 1 < places.size(); ++i) {
    ContactEdge piece{on(edge, places[i]), on(edge, places[i + 1]), {}};
    if (norm(piece.to - piece.from) <= 2 * probe_mm) continue;
    piece.out = out_of(facing, piece.from, piece.to);
    if (!(piece.out == Vec2{})) out.push_back(piece);
  }
  return out;
}

}  // namespace

bool Facing::meet(Vec2 p) const {
  if (!in_low(p, -probe_mm) || !in_high(p, probe_mm)) return false;
  return !in_low(p, probe_mm) && !in_high(p, -probe_mm);
}

std::vector<ContactEdge> contact_edges(const Facing& facing, const std::vector<Edge>& edges,
                                       const std::vector<Vec2>& breaks) {
  std::vector<ContactEdge> whole;
  for (const Edge& edge : edges) {
    if (!edge.straight() || edge.length_mm() <= 2 * probe_mm) continue;
    for (const ContactEdge& piece : pieces_of(facing, edge, edges)) add_once(piece, whole);
  }
  std::vector<ContactEdge> out;
  for (const ContactEdge& piece : whole) {
    for (const ContactEdge& part : split_at(piece, breaks)) out.push_back(part);
  }
  return out;
}

}  // namespace fitup::checks

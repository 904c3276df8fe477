// Two parallel edges across the narrow place, and what the loop does between them.
// Entry: is_tab_slot.
#include "inspect/tab_slots.h"

#include <algorithm>
#include <cmath>

#include "fitup/sheet_fit.h"

namespace fitup::inspect {

namespace {

constexpr double same_mm = 1e-3;      // rounding of files
constexpr double parallel = 1e-4;     // as a sine
constexpr double most_air_mm = 0.2;   // what lets a hand push a tab in (common practice)
constexpr double least_length = 2.5;  // of a closed slot, in thicknesses: shorter tabs hold nothing (common practice)
constexpr double least_depth = 1;     // of an open one
constexpr double least_end = 0.03;    // of a straight end between its reliefs, in widths
constexpr std::size_t most_between = 3;  // a relief, the end, a relief

double widest_mm(double t) {
  const double thicker = std::max(tables::sheet_thicker_by_mm(t, true), tables::sheet_thicker_by_mm(t, false));
  return t + thicker + tables::cut_permits_mm(t, CutClass::two) + most_air_mm;
}

Vec2 way(const Edge& e) { return (1 / norm(e.to - e.from)) * (e.to - e.from); }

// Whether an edge is straight and lies just so far beside a point.
bool lies_beside(const Edge& e, Vec2 p, double mm) {
  if (!e.straight() || norm(e.to - e.from) < same_mm) return false;
  const double at = dot(p - e.from, way(e));
  return at > -same_mm && at < norm(e.to - e.from) + same_mm &&
         std::abs(std::abs(cross(way(e), p - e.from)) - mm) < same_mm;
}

/// From one side of the slot on to the other: one straight end square to them, and arcs at most besides.
bool ends_square(const std::vector<Edge>& edges, std::size_t from, std::size_t to, double width_mm) {
  const std::size_t between = (to + edges.size() - from) % edges.size() - 1;
  if (between == 0 || between > most_between) return false;
  int ends = 0;
  for (std::size_t i = 1; i <= between; ++i) {
    const Edge& e = edges[(from + i) % edges.size()];
    if (!e.straight()) continue;
    const double length = norm(e.to - e.from);
    if (length < least_end * width_mm || std::abs(dot(way(e), way(edges[from]))) > parallel) return false;
    ++ends;
  }
  return ends == 1;
}

}  // namespace

bool is_tab_slot(const Profile& profile, const geometry::NarrowPlace& place, double thickness_mm) {
  if (place.kind != geometry::NarrowKind::slot || place.loop != place.other) return false;
  if (place.width_mm < thickness_mm - same_mm || place.width_mm > widest_mm(thickness_mm) + same_mm) return false;
  const bool closed = place.loop > 0;
  const auto edges = (closed ? profile.holes[place.loop - 1] : profile.outer).edges();
  std::vector<std::size_t> sides;
  for (std::size_t i = 0; i < edges.size(); ++i) {
    if (lies_beside(edges[i], place.at, place.width_mm / 2)) sides.push_back(i);
  }
  if (sides.size() != 2 || std::abs(cross(way(edges[sides[0]]), way(edges[sides[1]]))) > parallel) return false;
  const double least = (closed ? least_length : least_depth) * thickness_mm;
  for (const std::size_t i : sides) {
    if (edges[i].length_mm() < least - same_mm) return false;
  }
  const bool one = ends_square(edges, sides[0], sides[1], place.width_mm);
  const bool other = ends_square(edges, sides[1], sides[0], place.width_mm);
  return closed ? one && other : one || other;
}

}  // namespace fitup::inspect

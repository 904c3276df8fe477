// The shadow of a region clipped to a strip, and what two shadows share.
// Entry: shadow, shared_length.
#include <algorithm>
#include <cmath>

#include "geometry/crossings.h"
#include "geometry/region.h"

namespace fitup::geometry {

namespace {

// Pieces that meet but for rounding are one.
constexpr double speck_mm = 1e-9;

// Off a line by more than rounding.
constexpr double beside_mm = 1e-6;

double along(Axis2 axis, Vec2 p) { return axis == Axis2::x ? p.x : p.y; }
bool reaches(const Stretch& s, Axis2 axis, Interval strip) {
  return along(axis, s.box.high) >= strip.low - beside_mm && along(axis, s.box.low) <= strip.high + beside_mm;
}
Axis2 other(Axis2 axis) { return axis == Axis2::x ? Axis2::y : Axis2::x; }
Vec2 direction(Axis2 axis) { return axis == Axis2::x ? Vec2{1, 0} : Vec2{0, 1}; }

// Parameters between which the stretch is inside or outside the strip as a whole and casts what its ends span.
std::vector<double> cuts_of(const Stretch& s, Axis2 across, Interval strip) {
  std::vector<double> cuts{0, 1};
  const Vec2 run = direction(other(across));
  cross_line(s, strip.low * direction(across), run, cuts);
  cross_line(s, strip.high * direction(across), run, cuts);
  // An arc turns back where the line through its centre along `across`'s normal meets it.
  if (!s.straight) cross_line(s, s.arc.centre, run, cuts);
  std::sort(cuts.begin(), cuts.end());
  return cuts;
}

void add_outline(const Region& region, Axis2 across, Interval strip, std::vector<Interval>& out) {
  const Axis2 onto = other(across);
  for (const Stretch& s : region.outline()) {
    if (!reaches(s, across, strip)) continue;
    const auto cuts = cuts_of(s, across, strip);
    for (std::size_t i = 0; i + 1 < cuts.size(); ++i) {
      const double at = along(across, s.at((cuts[i] + cuts[i + 1]) / 2));
      if (at <= strip.low || at >= strip.high) continue;
      const auto [low, high] = std::minmax({along(onto, s.at(cuts[i])), along(onto, s.at(cuts[i + 1]))});
      out.push_back({low, high});
    }
  }
}

// The strip's lower side where it runs inside the region: with the outline it holds, for every place of the
// shadow, the clipped region's lowest point.
void add_side(const Region& region, Axis2 across, double side, std::vector<Interval>& out) {
  const Axis2 onto = other(across);
  std::vector<double> at;
  for (const Stretch& s : region.outline()) {
    if (!reaches(s, across, {side, side})) continue;
    std::vector<double> hits;
    cross_line(s, side * direction(across), direction(onto), hits);
    for (const double h : hits) at.push_back(along(onto, s.at(h)));
    // An edge that runs along the side crosses it nowhere.
    for (const Vec2 end : {s.edge.from, s.edge.to}) {
      if (std::abs(along(across, end) - side) <= beside_mm) at.push_back(along(onto, end));
    }
  }
  std::sort(at.begin(), at.end());
  for (std::size_t i = 0; i + 1 < at.size(); ++i) {
    const double middle = (at[i] + at[i + 1]) / 2;
    const Vec2 p = across == Axis2::x ? Vec2{side, middle} : Vec2{middle, side};
    if (region.contains(p)) out.push_back({at[i], at[i + 1]});
  }
}

}  // namespace

std::vector<Interval> shadow(const Region& region, Axis2 across, Interval strip) {
  if (strip.high <= strip.low) return {};
  std::vector<Interval> pieces;
  add_outline(region, across, strip, pieces);
  add_side(region, across, strip.low, pieces);
  std::sort(pieces.begin(), pieces.end(), [](const Interval& a, const Interval& b) { return a.low < b.low; });
  std::vector<Interval> merged;
  for (const Interval& piece : pieces) {
    if (!merged.empty() && piece.low <= merged.back().high + speck_mm) {
      merged.back().high = std::max(merged.back().high, piece.high);
    } else {
      merged.push_back(piece);
    }
  }
  return merged;
}

std::optional<double> shared_length(const std::vector<Interval>& a, const std::vector<Interval>& b) {
  std::optional<double> most;
  for (const Interval& p : a) {
    for (const Interval& q : b) {
      const double shared = std::min(p.high, q.high) - std::max(p.low, q.low);
      if (!most || shared > *most) most = shared;
    }
  }
  return most;
}

}  // namespace fitup::geometry

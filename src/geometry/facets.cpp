// Outlines as functions across an axis of motion, and the most by which one stands beyond another.
// Entry: facets, most_beyond.
#include "geometry/facets.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace fitup::geometry {

namespace {

// Pieces shorter than this across are rounding: they stand along the motion and stop nothing.
constexpr double speck_mm = 1e-9;

// (u, v): along the motion, across it.
Vec2 turned(Vec2 p, Axis2 along) { return along == Axis2::x ? p : Vec2{p.y, p.x}; }

void add_line(Vec2 from, Vec2 to, std::vector<Facet>& out) {
  if (from.y > to.y) std::swap(from, to);
  if (to.y - from.y <= speck_mm) return;
  out.push_back({{from.y, to.y}, from.x, to.x, {}, 0, 1});
}

// An arc is one function of v on each side of its centre's v-line: it is cut where it passes from one to the other.
void add_arc(const Stretch& s, Axis2 along, std::vector<Facet>& out) {
  const Vec2 centre = turned(s.arc.centre, along);
  std::vector<double> cuts{0, 1};
  for (const Vec2 way : {Vec2{0, 1}, Vec2{0, -1}}) {
    const double at = s.arc.turn_to(turned(way, along)) / std::abs(s.arc.sweep);
    if (at > 0 && at < 1) cuts.push_back(at);
  }
  std::sort(cuts.begin(), cuts.end());
  for (std::size_t i = 0; i + 1 < cuts.size(); ++i) {
    Vec2 a = turned(s.at(cuts[i]), along);
    Vec2 b = turned(s.at(cuts[i + 1]), along);
    const double side = turned(s.at((cuts[i] + cuts[i + 1]) / 2), along).x >= centre.x ? 1.0 : -1.0;
    if (a.y > b.y) std::swap(a, b);
    if (b.y - a.y <= speck_mm) continue;
    out.push_back({{a.y, b.y}, a.x, b.x, centre, s.arc.radius, side});
  }
}

double stationary(const Facet& arc, double slope) {
  return arc.centre.y - arc.side * slope * arc.radius / std::sqrt(1 + slope * slope);
}

// Where the difference of the two may be largest inside what they share: where both have one slope.
std::optional<double> one_slope(const Facet& a, const Facet& b) {
  if (a.radius == 0 && b.radius == 0) return std::nullopt;
  if (a.radius == 0) return stationary(b, a.slope());
  if (b.radius == 0) return stationary(a, b.slope());
  const double sign = a.side * b.side;
  const double rate = 1 / a.radius - sign / b.radius;
  if (std::abs(rate) < 1e-12) return std::nullopt;
  return (a.centre.y / a.radius - sign * b.centre.y / b.radius) / rate;
}

std::optional<double> beyond(const Facet& front, const Facet& rear, double band_mm, double most_mm) {
  Interval shared{std::max(front.across.low, rear.across.low), std::min(front.across.high, rear.across.high)};
  if (shared.length() <= band_mm) return std::nullopt;
  // What only the last of a share's band shows is contact, as in a pair that stands still.
  shared = {shared.low + band_mm / 2, shared.high - band_mm / 2};
  const auto difference = [&](double v) { return front.at(v) - rear.at(v); };
  if (difference((shared.low + shared.high) / 2) > most_mm) return std::nullopt;
  double most = std::max(difference(shared.low), difference(shared.high));
  if (const auto v = one_slope(front, rear); v && *v > shared.low && *v < shared.high) {
    most = std::max(most, difference(*v));
  }
  return most;
}

}  // namespace

double Facet::at(double v) const {
  if (radius == 0) return low_u + (v - across.low) / across.length() * (high_u - low_u);
  const double off = v - centre.y;
  return centre.x + side * std::sqrt(std::max(0.0, (radius - off) * (radius + off)));
}

Facets facets(const Region& region, Axis2 along) {
  std::vector<Facet> all;
  for (const Stretch& s : region.outline()) {
    if (s.straight) {
      add_line(turned(s.edge.from, along), turned(s.edge.to, along), all);
    } else {
      add_arc(s, along, all);
    }
  }
  Facets result;
  for (const Facet& facet : all) {
    // Even-odd: steel begins where an even number of outlines lies below.
    const double v = facet.across.low + 0.4871 * facet.across.length();
    const double u = facet.at(v);
    const auto below = std::count_if(all.begin(), all.end(), [&](const Facet& other) {
      return &other != &facet && other.across.low < v && v <= other.across.high && other.at(v) < u;
    });
    (below % 2 == 0 ? result.begins : result.ends).push_back(facet);
  }
  return result;
}

std::vector<Facet> level_facets(double u, const std::vector<Interval>& across) {
  std::vector<Facet> result;
  for (const Interval& piece : across) add_line({u, piece.low}, {u, piece.high}, result);
  return result;
}

std::vector<Facet> mirrored(std::vector<Facet> facets) {
  for (Facet& facet : facets) {
    facet.low_u = -facet.low_u;
    facet.high_u = -facet.high_u;
    facet.centre.x = -facet.centre.x;
    facet.side = -facet.side;
  }
  return facets;
}

std::optional<double> most_beyond(const std::vector<Facet>& front, const std::vector<Facet>& rear, double band_mm,
                                  double most_mm) {
  std::optional<double> most;
  for (const Facet& f : front) {
    for (const Facet& r : rear) {
      const auto one = beyond(f, r, band_mm, most_mm);
      if (one && (!most || *one > *most)) most = one;
    }
  }
  return most;
}

}  // namespace fitup::geometry

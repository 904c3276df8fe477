// The shadow of a region clipped to a strip, and what two shadows share.
// Entry: shadow, shadow_within, shared_length.
#include "geometry/shadow_within.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "geometry/crossings.h"

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

// What of a straight stretch lies in the strip.
void add_straight(const Edge& edge, Axis2 across, Interval strip, std::vector<Interval>& out) {
  const Axis2 onto = other(across);
  const double from = along(across, edge.from);
  const double run = along(across, edge.to) - from;
  double begins = 0;
  double ends = 1;
  if (std::abs(run) > 0) {
    const auto [first, last] = std::minmax({(strip.low - from) / run, (strip.high - from) / run});
    begins = std::max(begins, first);
    ends = std::min(ends, last);
  }
  const double middle = from + (begins + ends) / 2 * run;
  if (begins >= ends || middle <= strip.low || middle >= strip.high) return;
  const double low = along(onto, edge.from);
  const double way = along(onto, edge.to) - low;
  const auto [least, most] = std::minmax({low + begins * way, low + ends * way});
  out.push_back({least, most});
}

// Parameters between which the arc is inside or outside the strip as a whole and casts what its ends span.
std::vector<double> cuts_of(const Stretch& s, Axis2 across, Interval strip) {
  std::vector<double> cuts{0, 1};
  const Vec2 run = direction(other(across));
  cross_line(s, strip.low * direction(across), run, cuts);
  cross_line(s, strip.high * direction(across), run, cuts);
  // It turns back where the line through its centre along `across`'s normal meets it.
  cross_line(s, s.arc.centre, run, cuts);
  std::sort(cuts.begin(), cuts.end());
  return cuts;
}

void add_arc(const Stretch& s, Axis2 across, Interval strip, std::vector<Interval>& out) {
  const Axis2 onto = other(across);
  const auto cuts = cuts_of(s, across, strip);
  for (std::size_t i = 0; i + 1 < cuts.size(); ++i) {
    const double at = along(across, s.at((cuts[i] + cuts[i + 1]) / 2));
    if (at <= strip.low || at >= strip.high) continue;
    const auto [low, high] = std::minmax({along(onto, s.at(cuts[i])), along(onto, s.at(cuts[i + 1]))});
    out.push_back({low, high});
  }
}

// Closed pieces of the outline that are not beside the window as a whole: a line crosses the others an even number of
// times on one side of it, so that inside stays inside.
template <class Each>
void each_near(const Region& region, Axis2 onto, Interval within, const Each& each) {
  const std::vector<Stretch>& all = region.outline();
  for (std::size_t begin = 0, end = 0; begin < all.size(); begin = end) {
    const Vec2 start = all[begin].edge.from;
    Box2 box;
    bool closed = false;
    for (; end < all.size() && !closed; ++end) {
      box.add(all[end].box.low);
      box.add(all[end].box.high);
      closed = all[end].edge.to == start;
    }
    if (along(onto, box.high) < within.low || along(onto, box.low) > within.high) continue;
    for (std::size_t i = begin; i < end; ++i) each(all[i]);
  }
}

void add_piece(const Stretch& s, Axis2 across, Interval strip, std::vector<Interval>& out) {
  const Axis2 onto = other(across);
  if (s.straight) {
    add_straight(s.edge, across, strip, out);
  } else if (along(across, s.box.low) >= strip.low && along(across, s.box.high) <= strip.high) {
    out.push_back({along(onto, s.box.low), along(onto, s.box.high)});
  } else {
    add_arc(s, across, strip, out);
  }
}

// Half-open, as if the line lay a hair higher: a corner belongs to exactly one of the two pieces that meet there, and
// what runs along the line crosses it nowhere.
bool crosses(double from, double to, double side) { return (from <= side) != (to <= side); }

// Where the line `across` = side crosses the stretch.
void add_crossings(const Stretch& s, Axis2 across, double side, std::vector<double>& out) {
  const Axis2 onto = other(across);
  double low = along(across, s.edge.from);
  const double end = along(across, s.edge.to);
  if (s.straight) {
    if (!crosses(low, end, side)) return;
    const double from = along(onto, s.edge.from);
    out.push_back(from + (side - low) / (end - low) * (along(onto, s.edge.to) - from));
    return;
  }
  std::vector<double> turns = turns_of(s, across);
  turns.push_back(1);
  const double up = side - along(across, s.arc.centre);
  const double half = std::sqrt(std::max(0.0, (s.arc.radius - up) * (s.arc.radius + up)));
  const double centre = along(onto, s.arc.centre);
  double at = 0;
  for (const double turn : turns) {
    const double high = turn == 1 ? end : along(across, s.at(turn));
    const bool beyond = along(onto, s.at((at + turn) / 2)) > centre;
    if (crosses(low, high, side)) out.push_back(beyond ? centre + half : centre - half);
    low = high;
    at = turn;
  }
}

// The strip's lower side where it runs inside the region: with the outline it holds, for every place of the
// shadow, the clipped region's lowest point.
void add_side(std::vector<double> at, std::vector<Interval>& out) {
  std::sort(at.begin(), at.end());
  for (std::size_t i = 0; i + 1 < at.size(); i += 2) out.push_back({at[i], at[i + 1]});
}

}  // namespace

std::vector<Interval> shadow(const Region& region, Axis2 across, Interval strip) {
  constexpr double far = std::numeric_limits<double>::infinity();
  return shadow_within(region, across, strip, {-far, far});
}

std::vector<Interval> shadow_within(const Region& region, Axis2 across, Interval strip, Interval within) {
  if (strip.high <= strip.low) return {};
  const Interval side{strip.low, strip.low};
  std::vector<Interval> pieces;
  std::vector<double> crossings;
  each_near(region, other(across), within, [&](const Stretch& s) {
    if (reaches(s, across, strip) && reaches(s, other(across), within)) add_piece(s, across, strip, pieces);
    if (reaches(s, across, side)) add_crossings(s, across, side.low, crossings);
  });
  add_side(std::move(crossings), pieces);
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

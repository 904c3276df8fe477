// One pair of prisms that move past each other: parallel to the way, across it side by side, or crossing.
// Entry: stop_mm, stop_of.
#include "checks/travel.h"

#include <algorithm>
#include <cmath>

#include "checks/bores.h"
#include "fitup/tolerances.h"
#include "geometry/facets.h"
#include "geometry/shadow_within.h"

namespace fitup::checks {

namespace {

using geometry::Axis2;
using geometry::Facet;

constexpr double band = tolerance::contact_mm;

int axis_along(Vec3 way) { return way.x != 0 ? 0 : way.y != 0 ? 1 : 2; }

Interval shrunk(Interval i) { return {i.low + band, i.high - band}; }

Axis2 in_plane(const PlacedPrism& p, int axis) { return (p.axis + 1) % 3 == axis ? Axis2::x : Axis2::y; }

// Coordinates along the way, whichever way it points.
struct Way {
  int axis = 0;
  bool up = true;

  [[nodiscard]] Interval turned(Interval i) const { return up ? i : Interval{-i.high, -i.low}; }
  [[nodiscard]] Axis2 in_plane_of(const PlacedPrism& p) const { return in_plane(p, axis); }
  // Where the mover ends, and where the other begins, as functions across the way.
  [[nodiscard]] std::vector<Facet> fronts(const PlacedPrism& p) const {
    auto all = geometry::facets(*p.region, in_plane_of(p));
    return up ? std::move(all.ends) : geometry::mirrored(std::move(all.begins));
  }
  [[nodiscard]] std::vector<Facet> rears(const PlacedPrism& p) const {
    auto all = geometry::facets(*p.region, in_plane_of(p));
    return up ? std::move(all.begins) : geometry::mirrored(std::move(all.ends));
  }
};

// The prism's region, clipped to a span along one axis of its plane, cast onto the other.
std::vector<Interval> cast(const PlacedPrism& p, int strip_axis, Interval strip, const Rules& rules) {
  return rules.shadow(*p.region, in_plane(p, strip_axis), shrunk(strip));
}

// The same, as far as it is before `seen`. Other rules than ours have no window.
std::vector<Interval> cast_before(const PlacedPrism& p, const PlacedPrism& seen, const Rules& rules) {
  if (rules.shadow != Rules{}.shadow) return cast(p, seen.axis, seen.span, rules);
  const int onto = 3 - p.axis - seen.axis;
  const Interval within{component(seen.box.low, onto), component(seen.box.high, onto)};
  return geometry::shadow_within(*p.region, in_plane(p, seen.axis), shrunk(seen.span), within);
}

bool planes_overlap(const PlacedPrism& a, const PlacedPrism& b, const Rules& rules) {
  if (const auto quick = rules.discs(*a.region, *b.region, band)) return *quick == Contact::overlap;
  if (const auto quick = rules.rectangles(*a.region, *b.region, band)) return *quick == Contact::overlap;
  return rules.regions(*a.region, *b.region, band) == Contact::overlap;
}

std::optional<double> counted(double beyond, double from_mm) {
  return beyond > from_mm + band ? std::nullopt : std::optional(beyond);
}

// Both across the way, crossing each other: each clipped to the other's span, cast onto the way.
std::optional<double> crossing(const PlacedPrism& p, const PlacedPrism& q, const Way& way, double from_mm,
                               const Rules& rules) {
  std::optional<double> most;
  for (const Interval& a : cast(p, q.axis, q.span, rules)) {
    for (const Interval& b : cast(q, p.axis, p.span, rules)) {
      const auto one = counted(way.turned(a).high - way.turned(b).low, from_mm);
      if (one && (!most || *one > *most)) most = one;
    }
  }
  return most;
}

std::optional<double> parallel(const PlacedPrism& p, const PlacedPrism& q, const Way& way, double from_mm,
                               const Rules& rules) {
  if (p.axis == way.axis) {
    if (!planes_overlap(p, q, rules)) return std::nullopt;
    return counted(way.turned(p.span).high - way.turned(q.span).low, from_mm);
  }
  if (rules.spans(p.span, q.span, band) != Contact::overlap) return std::nullopt;
  return geometry::most_beyond(way.fronts(p), way.rears(q), band, from_mm + band);
}

}  // namespace

bool may_meet(const Box3& mover, const Box3& other, Vec3 way) {
  const int axis = axis_along(way);
  for (int i = 0; i < 3; ++i) {
    const double share = std::min(component(mover.high, i), component(other.high, i)) -
                         std::max(component(mover.low, i), component(other.low, i));
    if (i != axis && share <= band) return false;
  }
  return component(way, axis) > 0 ? component(mover.high, axis) > component(other.low, axis) + band
                                  : component(mover.low, axis) < component(other.high, axis) - band;
}

std::optional<double> stop_mm(const PlacedPrism& mover, const PlacedPrism& other, Vec3 along, double from_mm,
                              const Rules& rules) {
  const Way way{axis_along(along), component(along, axis_along(along)) > 0};
  if (mover.axis == other.axis) return parallel(mover, other, way, from_mm, rules);
  if (mover.axis == way.axis) {
    const auto shared = cast_before(mover, other, rules);
    return geometry::most_beyond(geometry::level_facets(way.turned(mover.span).high, shared), way.rears(other), band,
                                 from_mm + band);
  }
  if (other.axis == way.axis) {
    const auto shared = cast_before(other, mover, rules);
    return geometry::most_beyond(way.fronts(mover), geometry::level_facets(way.turned(other.span).low, shared), band,
                                 from_mm + band);
  }
  return crossing(mover, other, way, from_mm, rules);
}

namespace {

std::optional<double> larger(std::optional<double> a, std::optional<double> b) {
  if (!a || !b) return a ? a : b;
  return std::max(*a, *b);
}

// Bores of a body along the way that a round prism along the way fits.
std::vector<Interval> fitting_bores(const PlacedPrism& round, const Stack& bored, int axis,
                                    const PairOptions& options) {
  std::vector<Interval> spans;
  if (round.axis != axis || !round.region->round_outline()) return spans;
  const Circle disc = *round.region->round_outline();
  for (const PlacedBore& bore : bored.bores) {
    if (bore.axis != axis) continue;
    const double radius = std::max(bore.radius, options.thread_major_mm / 2);
    if (options.rules.slack(radius, disc.radius, norm(disc.centre - bore.centre)) >= -band) spans.push_back(bore.span);
  }
  return spans;
}

// Is there steel right behind the bore's far end?
bool is_blind(const PlacedPrism& round, double end, const PlacedPrism& bored, const Way& way, const Rules& rules) {
  PlacedPrism probe = round;
  probe.span = way.up ? Interval{end, end + 10 * band} : Interval{-end - 10 * band, -end};
  probe.box = bored.box;
  return decide(probe, bored, rules) == Decision::overlap;
}

// A round along the way against a prism across it that is bored: where a bore takes its side away nothing stops it.
std::optional<double> through_bores(const PlacedPrism& round, const PlacedPrism& bored,
                                    const std::vector<Interval>& open, const Way& way, double from_mm,
                                    const Rules& rules) {
  const auto shared = cast(round, bored.axis, bored.span, rules);
  std::vector<Facet> rears = way.rears(bored);
  for (const Interval& bore : open) {
    const Interval span = way.turned(bore);
    std::erase_if(rears, [&](const Facet& f) {
      const double u = f.at((f.across.low + f.across.high) / 2);
      return u > span.low - band && u < span.high + band;
    });
    if (!is_blind(round, span.high, bored, way, rules)) continue;
    for (const Facet& f : geometry::level_facets(span.high, shared)) rears.push_back(f);
  }
  return geometry::most_beyond(geometry::level_facets(way.turned(round.span).high, shared), rears, band,
                               from_mm + band);
}

// Of a prism that stands askew: its box, as if it were all solid.
PlacedPrism as_box(const PlacedPrism& askew) { return body_of_box(askew.box).outer.prisms.front(); }

std::optional<double> stop_of(const PlacedPrism& p, const Stack& a, const PlacedPrism& q, const Stack& b, Vec3 along,
                              double from_mm, const PairOptions& options) {
  const int axis = axis_along(along);
  const Way way{axis, component(along, axis) > 0};
  if (q.axis != axis) {
    if (const auto open = fitting_bores(p, b, axis, options); !open.empty())
      return through_bores(p, q, open, way, from_mm, options.rules);
  }
  if (p.axis != axis) {
    // Seen from the mover the other comes the other way.
    if (const auto open = fitting_bores(q, a, axis, options); !open.empty())
      return through_bores(q, p, open, {axis, !way.up}, from_mm, options.rules);
  }
  if (options.thread_major_mm <= 0) return stop_mm(p, q, along, from_mm, options.rules);
  return stop_mm(opened_for_thread(p, q, options.thread_major_mm), opened_for_thread(q, p, options.thread_major_mm),
                 along, from_mm, options.rules);
}

// Of two prisms one of which stands askew.
std::optional<double> stop_of_askew(const PlacedPrism& p, const PlacedPrism& q, Vec3 way, double from_mm) {
  return stop_mm(p.axis < 0 ? as_box(p) : p, q.axis < 0 ? as_box(q) : q, way, from_mm);
}

std::optional<double> stop_of(const Stack& a, const Stack& b, Vec3 way, double from_mm, const PairOptions& options,
                              bool sure) {
  std::optional<double> most;
  for (const PlacedPrism& p : a.prisms) {
    if (!may_meet(p.box, b.box, way)) continue;
    for (const PlacedPrism& q : b.prisms) {
      if (!may_meet(p.box, q.box, way)) continue;
      const bool askew = p.axis < 0 || q.axis < 0;
      if (askew && sure) continue;
      most = larger(most, askew ? stop_of_askew(p, q, way, from_mm) : stop_of(p, a, q, b, way, from_mm, options));
    }
  }
  return most;
}

bool has_askew(const Stack& stack) {
  return std::any_of(stack.prisms.begin(), stack.prisms.end(), [](const PlacedPrism& p) { return p.axis < 0; });
}

}  // namespace

Decision Stop::decision() const {
  if (!may_mm || *may_mm <= band) return Decision::clear;
  return sure_mm && *sure_mm > band ? Decision::overlap : Decision::unsure;
}

Stop stop_of(const PlacedBody& mover, const PlacedBody& other, Vec3 way, double from_mm, const PairOptions& options) {
  if (!may_meet(mover.outer.box, other.outer.box, way)) return {};
  Stop stop;
  stop.may_mm = stop_of(mover.outer, other.outer, way, from_mm, options, false);
  const bool exact = mover.exact && other.exact && !has_askew(mover.outer) && !has_askew(other.outer);
  stop.sure_mm = exact || !stop.may_mm ? stop.may_mm : stop_of(mover.inner, other.inner, way, from_mm, options, true);
  return stop;
}

}  // namespace fitup::checks

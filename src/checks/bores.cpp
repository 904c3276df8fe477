// What bores take out of the pair decision: spans of round prisms, thread annuli, overlaps that a bore may save.
// Entry: outside_bores.
#include "checks/bores.h"

#include <algorithm>
#include <cmath>

#include "fitup/tolerances.h"

namespace fitup::checks {

namespace {

constexpr double band = tolerance::contact_mm;
// A screw stands in its own thread: off by less than this it is coaxial, off by more it stands in another's.
constexpr double coaxial_mm = 1e-3;

bool shares_span(const PlacedBore& bore, const PlacedPrism& prism) {
  return bore.axis == prism.axis && geometry::relate_intervals(bore.span, prism.span, band) != Contact::clear;
}

std::vector<Interval> merged(std::vector<Interval> spans) {
  std::sort(spans.begin(), spans.end(), [](const Interval& a, const Interval& b) { return a.low < b.low; });
  std::vector<Interval> result;
  for (const Interval& s : spans) {
    if (!result.empty() && s.low <= result.back().high + band) {
      result.back().high = std::max(result.back().high, s.high);
    } else {
      result.push_back(s);
    }
  }
  return result;
}

// Would the round prism, going on beyond `end`, run into the body?
bool blind(const PlacedPrism& prism, double end, bool upward, const Stack& bored, const Rules& rules) {
  constexpr double probe_mm = 10 * band;
  PlacedPrism probe = prism;
  probe.span = upward ? Interval{end, end + probe_mm} : Interval{end - probe_mm, end};
  probe.box = bored.box;
  return std::any_of(bored.prisms.begin(), bored.prisms.end(),
                     [&](const PlacedPrism& p) { return p.axis < 0 || decide(probe, p, rules) == Decision::overlap; });
}

void add_piece(const PlacedPrism& prism, Interval span, std::vector<PlacedPrism>& out) {
  if (span.length() <= band) return;
  PlacedPrism piece = prism;
  piece.span = span;
  const auto limit = [&](Vec3& v, double to) { (prism.axis == 0 ? v.x : prism.axis == 1 ? v.y : v.z) = to; };
  limit(piece.box.low, span.low);
  limit(piece.box.high, span.high);
  out.push_back(std::move(piece));
}

// Where the round prism runs in bores that it fits; says whether it touches the wall of one.
std::vector<Interval> spans_in_bores(const PlacedPrism& prism, const Stack& bored, const PairOptions& options,
                                     bool& touches) {
  const Circle disc = *prism.region->round_outline();
  std::vector<Interval> taken;
  for (const PlacedBore& bore : bored.bores) {
    if (!shares_span(bore, prism)) continue;
    const double off = norm(disc.centre - bore.centre);
    const double radius = off <= coaxial_mm ? std::max(bore.radius, options.thread_major_mm / 2) : bore.radius;
    const double slack = options.rules.slack(radius, disc.radius, off);
    if (slack < -band) continue;
    touches = touches || slack <= band;
    taken.push_back(bore.span);
  }
  return taken;
}

// The bore is a hole of the prism's own region already.
bool is_hole_of(const PlacedBore& bore, const PlacedPrism& prism) {
  if (bore.axis < 0 || bore.axis != prism.axis) return false;
  const auto& holes = prism.region->round_holes();
  return std::any_of(holes.begin(), holes.end(), [&](const Circle& hole) {
    return norm(hole.centre - bore.centre) <= band && hole.radius >= bore.radius - band;
  });
}

bool enters(const PlacedBore& bore, const Box3& box) {
  const Box3 shared = common(bore.box, box);
  const Vec3 size = shared.size();
  return size.x > band && size.y > band && size.z > band;
}

}  // namespace

Remainder outside_bores(const PlacedPrism& prism, const Stack& bored, const PairOptions& options) {
  if (bored.bores.empty() || prism.axis < 0 || !prism.region->round_outline()) return {{prism}, false};
  Remainder rest;
  double from = prism.span.low;
  for (Interval span : merged(spans_in_bores(prism, bored, options, rest.touches))) {
    const bool ground_below = blind(prism, span.low, false, bored, options.rules);
    const bool ground_above = blind(prism, span.high, true, bored, options.rules);
    rest.touches = rest.touches || (ground_below && std::abs(prism.span.low - span.low) <= band) ||
                   (ground_above && std::abs(prism.span.high - span.high) <= band);
    if (!ground_below) span.low -= 2 * band;
    if (!ground_above) span.high += 2 * band;
    add_piece(prism, {from, std::min(span.low, prism.span.high)}, rest.pieces);
    from = std::max(from, span.high);
  }
  if (from == prism.span.low) {
    rest.pieces.push_back(prism);
  } else {
    add_piece(prism, {from, prism.span.high}, rest.pieces);
  }
  return rest;
}

PlacedPrism opened_for_thread(const PlacedPrism& holed, const PlacedPrism& screw, double major_mm) {
  if (major_mm <= 0 || holed.axis < 0 || holed.axis != screw.axis || !screw.region->disc()) return holed;
  Profile profile = holed.region->profile();
  bool opened = false;
  for (Loop& hole : profile.holes) {
    const auto circle = hole.as_circle();
    if (!circle || 2 * circle->radius >= major_mm) continue;
    if (norm(circle->centre - screw.region->disc()->centre) > coaxial_mm) continue;
    // Where a thread would break through the outline the hole stays as drilled.
    if (Region({profile.outer, {}}).distance_to_outline_mm(circle->centre) <= major_mm / 2 + band) continue;
    hole = Loop::circle(circle->centre, major_mm / 2);
    opened = true;
  }
  if (!opened) return holed;
  PlacedPrism result = holed;
  result.region = std::make_shared<const Region>(std::move(profile));
  return result;
}

namespace {

// A round prism that stands askew in a bore bites its wall: the disc that fits between the bore and the prism's far
// side, where it is within the prism, is in steel if the bored prism is there and no other bore is.
bool bites_wall(const PlacedPrism& bored, const PlacedBore& bore, const std::vector<PlacedBore>& bores,
                const PlacedPrism& other, const Rules& rules) {
  if (bore.axis < 0 || other.axis != bore.axis || !other.region->round_outline()) return false;
  const Circle disc = *other.region->round_outline();
  const double off = norm(disc.centre - bore.centre);
  const double bite = off + disc.radius - bore.radius;
  if (bite <= band || off < band) return false;
  const Vec2 way = (1 / off) * (disc.centre - bore.centre);
  const Vec2 centre = bore.centre + (bore.radius + bite / 2) * way;
  PlacedPrism probe = other;
  probe.region = std::make_shared<const Region>(Profile{Loop::circle(centre, bite / 2), {}});
  if (!other.region->contains(centre) || other.region->distance_to_outline_mm(centre) < bite / 2 - band) return false;
  const bool in_another = std::any_of(bores.begin(), bores.end(), [&](const PlacedBore& b) {
    return &b != &bore && b.axis == bore.axis && norm(b.centre - centre) < b.radius + bite / 2;
  });
  return !in_another && decide(probe, bored, rules) == Decision::overlap;
}

}  // namespace

bool overlaps_beside_bores(const PlacedPrism& prism, const std::vector<PlacedBore>& bores, const PlacedPrism& other,
                           const Rules& rules) {
  std::vector<Interval> taken;
  for (const PlacedBore& bore : bores) {
    if (!enters(bore, prism.box) || !enters(bore, other.box) || is_hole_of(bore, prism)) continue;
    if (prism.axis < 0) return false;
    if (bites_wall(prism, bore, bores, other, rules)) return true;
    taken.push_back({component(bore.box.low, prism.axis), component(bore.box.high, prism.axis)});
  }
  if (taken.empty()) return true;
  std::vector<PlacedPrism> pieces;
  double from = prism.span.low;
  for (const Interval& span : merged(std::move(taken))) {
    add_piece(prism, {from, span.low}, pieces);
    from = span.high;
  }
  add_piece(prism, {from, prism.span.high}, pieces);
  return std::any_of(pieces.begin(), pieces.end(),
                     [&](const PlacedPrism& p) { return decide(p, other, rules) == Decision::overlap; });
}

bool may_stand_in_a_bore(const PlacedPrism& other, const std::vector<PlacedBore>& bores) {
  return std::any_of(bores.begin(), bores.end(), [&](const PlacedBore& bore) {
    if (apart(bore.box, other.box, band)) return false;
    if (bore.axis < 0) return true;
    // A coaxial disc that fits has been dealt with; one that does not fit stands on the bore's rim.
    if (other.axis == bore.axis && other.region->round_outline()) return false;
    for (int i = 0; i < 3; ++i) {
      if (i == bore.axis) continue;
      if (component(other.box.low, i) < component(bore.box.low, i) - band) return false;
      if (component(other.box.high, i) > component(bore.box.high, i) + band) return false;
    }
    return true;
  });
}

}  // namespace fitup::checks

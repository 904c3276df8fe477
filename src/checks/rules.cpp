// One pair of prisms: parallel axes by spans and regions, perpendicular ones by shadows.
// Entry: decide(prism, prism).
#include "checks/rules.h"

#include <algorithm>

#include "fitup/tolerances.h"

namespace fitup::checks {

namespace {

constexpr double band = tolerance::contact_mm;

Decision as_decision(Contact c) {
  switch (c) {
    case Contact::clear: return Decision::clear;
    case Contact::touch: return Decision::touch;
    case Contact::overlap: return Decision::overlap;
  }
  return Decision::unsure;
}

Contact relate_planes(const Region& a, const Region& b, const Rules& rules) {
  if (const auto quick = rules.discs(a, b, band)) return *quick;
  if (const auto quick = rules.rectangles(a, b, band)) return *quick;
  return rules.regions(a, b, band);
}

Decision decide_parallel(const PlacedPrism& a, const PlacedPrism& b, const Rules& rules) {
  const Contact along = rules.spans(a.span, b.span, band);
  if (along == Contact::clear) return Decision::clear;
  return as_decision(std::min(along, relate_planes(*a.region, *b.region, rules)));
}

// The prism's region clipped to `strip` along `strip_axis`, cast onto the axis that is neither.
std::vector<Interval> shadow_of(const PlacedPrism& prism, int strip_axis, Interval strip, const Rules& rules) {
  const bool first = (prism.axis + 1) % 3 == strip_axis;
  return rules.shadow(*prism.region, first ? geometry::Axis2::x : geometry::Axis2::y, strip);
}

std::optional<double> shared_shadow(const PlacedPrism& a, const PlacedPrism& b, double grow, const Rules& rules) {
  const auto strip = [grow](Interval i) { return Interval{i.low - grow, i.high + grow}; };
  const auto first = shadow_of(a, b.axis, strip(b.span), rules);
  if (first.empty()) return std::nullopt;
  return geometry::shared_length(first, shadow_of(b, a.axis, strip(a.span), rules));
}

Decision decide_crossing(const PlacedPrism& a, const PlacedPrism& b, const Rules& rules) {
  const auto inner = shared_shadow(a, b, -band, rules);
  if (inner && *inner > band) return Decision::overlap;
  const auto outer = shared_shadow(a, b, band, rules);
  return outer && *outer >= -band ? Decision::touch : Decision::clear;
}

}  // namespace

Decision decide(const PlacedPrism& a, const PlacedPrism& b, const Rules& rules) {
  if (apart(a.box, b.box, band)) return Decision::clear;
  if (a.axis < 0 || b.axis < 0) return Decision::unsure;
  return a.axis == b.axis ? decide_parallel(a, b, rules) : decide_crossing(a, b, rules);
}

}  // namespace fitup::checks

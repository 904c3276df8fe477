// Distances of prisms from spans and regions; of bodies the least, nearest boxes first.
// Entry: nearest.
#include "checks/distance.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include "fitup/tolerances.h"

namespace fitup::checks {

namespace {

Interval span_of(const Box3& box, int axis) { return {component(box.low, axis), component(box.high, axis)}; }

// Between the two spans; of spans that share a piece the middle of that.
double middle(Interval a, Interval b) { return (std::max(a.low, b.low) + std::min(a.high, b.high)) / 2; }

/// The same body as a prism along another axis; none where it is no box.
std::optional<PlacedPrism> along(const PlacedPrism& prism, int axis) {
  if (prism.axis == axis) return prism;
  if (!prism.region->rectangle()) return std::nullopt;
  const Interval x = span_of(prism.box, (axis + 1) % 3);
  const Interval y = span_of(prism.box, (axis + 2) % 3);
  PlacedPrism turned = prism;
  turned.axis = axis;
  turned.span = span_of(prism.box, axis);
  turned.region = std::make_shared<const Region>(Profile{Loop::rectangle({x.low, y.low}, {x.high, y.high}), {}});
  return turned;
}

Vec3 in_space(Vec2 p, double along_axis, int axis) {
  std::array<double, 3> c{};
  c[static_cast<std::size_t>(axis)] = along_axis;
  c[static_cast<std::size_t>((axis + 1) % 3)] = p.x;
  c[static_cast<std::size_t>((axis + 2) % 3)] = p.y;
  return {c[0], c[1], c[2]};
}

Nearest boxes_apart(const Box3& a, const Box3& b, const DistanceRules& rules) {
  return {rules.boxes(a, b), common(a, b).middle()};
}

Nearest parallel(const PlacedPrism& a, const PlacedPrism& b, const DistanceRules& rules) {
  const geometry::NearestPlace place = rules.regions(*a.region, *b.region);
  const double mm = rules.together(place.distance_mm, rules.spans(a.span, b.span));
  // Faces that face each other are equally near all over: the place is the middle of what lies between them.
  if (mm <= rules.boxes(a.box, b.box) + tolerance::coincident_mm) return {mm, common(a.box, b.box).middle()};
  return {mm, in_space(place.at, middle(a.span, b.span), a.axis)};
}

struct Pair {
  double at_least_mm = 0;
  const PlacedPrism* p = nullptr;
  const PlacedPrism* q = nullptr;
};

std::vector<Pair> pairs_below(const Stack& a, const Stack& b, double below_mm, const DistanceRules& rules) {
  std::vector<Pair> pairs;
  for (const PlacedPrism& p : a.prisms) {
    for (const PlacedPrism& q : b.prisms) {
      const double mm = rules.boxes(p.box, q.box);
      if (mm < below_mm) pairs.push_back({mm, &p, &q});
    }
  }
  std::stable_sort(pairs.begin(), pairs.end(),
                   [](const Pair& one, const Pair& other) { return one.at_least_mm < other.at_least_mm; });
  return pairs;
}

}  // namespace

double DistanceRules::between(Interval a, Interval b) {
  return std::max(0.0, std::max(a.low, b.low) - std::min(a.high, b.high));
}

double DistanceRules::of_both(double across_mm, double along_mm) { return std::hypot(across_mm, along_mm); }

bool DistanceRules::is_bored(const PlacedPrism& prism, const Stack& stack) {
  return std::any_of(stack.bores.begin(), stack.bores.end(), [&](const PlacedBore& bore) {
    if (apart(bore.box, prism.box, 0)) return false;
    if (prism.axis < 0 || bore.axis != prism.axis) return true;
    const auto& holes = prism.region->round_holes();
    return std::none_of(holes.begin(), holes.end(), [&](const Circle& hole) {
      return norm(hole.centre - bore.centre) <= tolerance::coincident_mm &&
             std::abs(hole.radius - bore.radius) <= tolerance::coincident_mm;
    });
  });
}

double distance_mm(const Box3& a, const Box3& b) {
  double square = 0;
  for (int i = 0; i < 3; ++i) {
    const double gap = DistanceRules::between(span_of(a, i), span_of(b, i));
    square += gap * gap;
  }
  return std::sqrt(square);
}

std::optional<Nearest> nearest(const PlacedPrism& a, const PlacedPrism& b, const DistanceRules& rules) {
  if (a.axis < 0 || b.axis < 0) return std::nullopt;
  if (a.region->rectangle() && b.region->rectangle()) return boxes_apart(a.box, b.box, rules);
  if (const auto turned = along(b, a.axis)) return parallel(a, *turned, rules);
  if (const auto turned = along(a, b.axis)) return parallel(*turned, b, rules);
  return std::nullopt;
}

std::optional<Nearest> nearest(const PlacedBody& a, const PlacedBody& b, double below_mm, const DistanceRules& rules) {
  Nearest least{below_mm, {}};
  for (const Pair& pair : pairs_below(a.outer, b.outer, below_mm, rules)) {
    if (pair.at_least_mm >= least.mm) break;
    const auto found = nearest(*pair.p, *pair.q, rules);
    if (!found) return std::nullopt;
    if (found->mm >= least.mm) continue;
    // What is bored or bounded only from outside may stand farther off than its prism.
    if (!a.exact || !b.exact || rules.bored(*pair.p, a.outer) || rules.bored(*pair.q, b.outer)) return std::nullopt;
    least = *found;
  }
  return least;
}

}  // namespace fitup::checks

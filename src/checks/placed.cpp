// Bodies in world places: prisms turned to axis, span and region; bores that pierce a prism become its holes.
// Entry: place.
#include "checks/placed.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include "fitup/tolerances.h"

namespace fitup::checks {

namespace {

// A direction along an axis made exactly so: the products of exact quarter turns carry rounding.
Vec3 snapped(Vec3 d) {
  const auto snap = [](double c) {
    const double r = std::round(c);
    return std::abs(c - r) <= tolerance::direction ? r : c;
  };
  return {snap(d.x), snap(d.y), snap(d.z)};
}

std::optional<int> axis_of(Vec3 d) {
  for (int i = 0; i < 3; ++i) {
    if (std::abs(component(d, i)) == 1) return i;
  }
  return std::nullopt;
}

Vec2 plane_point(Vec3 p, int axis) { return {component(p, (axis + 1) % 3), component(p, (axis + 2) % 3)}; }

Loop in_plane(const Loop& loop, const Pose& at, int axis) {
  Loop result;
  const bool mirrored = component(at.z(), axis) < 0;
  const std::size_t n = loop.vertices.size();
  for (std::size_t i = 0; i < n; ++i) {
    // Seen from behind the loop runs the other way: taken backwards, the edge before a corner leaves it.
    const Vertex& v = mirrored ? loop.vertices[n - 1 - i] : loop.vertices[i];
    const double bulge = mirrored ? loop.vertices[(2 * n - 2 - i) % n].bulge : v.bulge;
    result.vertices.push_back({plane_point(at.point({v.at.x, v.at.y, 0}), axis), bulge});
  }
  return result;
}

Profile in_plane(const Profile& profile, const Pose& at, int axis) {
  Profile result;
  result.outer = in_plane(profile.outer, at, axis);
  for (const Loop& hole : profile.holes) result.holes.push_back(in_plane(hole, at, axis));
  return result;
}

Pose snapped(const Pose& pose) { return Pose::at(pose.origin(), snapped(pose.x()), snapped(pose.y())); }

Box3 box_of(const Box2& bounds, Interval span, int axis) {
  Box3 box;
  box.add(from_plane(bounds.low, span.low, axis));
  box.add(from_plane(bounds.high, span.high, axis));
  return box;
}

// Where an askew prism may reach: its profile's box at both ends.
Box3 loose_box(const Prism& prism, const Pose& at) {
  const Box2 b = prism.profile.bounds();
  Box3 box;
  for (const double z : {0.0, prism.length_mm}) {
    for (const Vec2 p : {b.low, b.high, Vec2{b.low.x, b.high.y}, Vec2{b.high.x, b.low.y}}) {
      box.add(at.point({p.x, p.y, z}));
    }
  }
  return box;
}

PlacedBore place_bore(const Bore& bore, const Pose& pose) {
  const Pose at = snapped(pose * bore.pose);
  PlacedBore placed;
  placed.radius = bore.diameter_mm / 2;
  const auto axis = axis_of(snapped(at.z()));
  if (!axis) {
    placed.box = loose_box({{Loop::circle({0, 0}, placed.radius), {}}, {}, bore.length_mm}, at);
    return placed;
  }
  placed.axis = *axis;
  const double start = component(at.origin(), *axis);
  const double end = start + std::copysign(1.0, component(at.z(), *axis)) * bore.length_mm;
  placed.span = {std::min(start, end), std::max(start, end)};
  placed.centre = plane_point(at.origin(), *axis);
  const Vec2 r{placed.radius, placed.radius};
  placed.box = box_of({placed.centre - r, placed.centre + r}, placed.span, *axis);
  return placed;
}

// A bore that goes right through a prism along its axis, well inside its outline, is a hole of its region:
// the rules then see it exactly.
bool pierces(const PlacedBore& bore, const PlacedPrism& prism) {
  if (bore.axis != prism.axis || prism.axis < 0) return false;
  constexpr double band = tolerance::contact_mm;
  if (bore.span.low > prism.span.low + band || bore.span.high < prism.span.high - band) return false;
  return prism.region->contains(bore.centre) && prism.region->distance_to_outline_mm(bore.centre) > bore.radius + band;
}

Stack stack_of(const std::vector<Prism>& prisms, const std::vector<Bore>& bores, const Pose& pose) {
  Stack stack;
  for (const Bore& b : bores) stack.bores.push_back(place_bore(b, pose));
  for (const Prism& p : prisms) {
    PlacedPrism placed = place(p, pose);
    for (const PlacedBore& bore : stack.bores) {
      if (!pierces(bore, placed)) continue;
      Profile pierced = placed.region->profile();
      pierced.holes.push_back(Loop::circle(bore.centre, bore.radius));
      placed.region = std::make_shared<const Region>(std::move(pierced));
    }
    stack.box.add(placed.box);
    stack.prisms.push_back(std::move(placed));
  }
  return stack;
}

void move(Stack& stack, Vec3 by) {
  for (PlacedPrism& p : stack.prisms) p = moved(p, by);
  for (PlacedBore& b : stack.bores) {
    b.box = {b.box.low + by, b.box.high + by};
    if (b.axis < 0) continue;
    b.span = {b.span.low + component(by, b.axis), b.span.high + component(by, b.axis)};
    b.centre = b.centre + plane_point(by, b.axis);
  }
  stack.box = {stack.box.low + by, stack.box.high + by};
}

}  // namespace

Vec3 from_plane(Vec2 p, double along, int axis) {
  std::array<double, 3> c{};
  c[static_cast<std::size_t>(axis)] = along;
  c[static_cast<std::size_t>((axis + 1) % 3)] = p.x;
  c[static_cast<std::size_t>((axis + 2) % 3)] = p.y;
  return {c[0], c[1], c[2]};
}

Box3 common(const Box3& a, const Box3& b) {
  return {{std::max(a.low.x, b.low.x), std::max(a.low.y, b.low.y), std::max(a.low.z, b.low.z)},
          {std::min(a.high.x, b.high.x), std::min(a.high.y, b.high.y), std::min(a.high.z, b.high.z)}};
}

PlacedPrism place(const Prism& prism, const Pose& pose) {
  const Pose at = snapped(pose * prism.pose);
  PlacedPrism placed;
  const auto axis = axis_of(snapped(at.z()));
  if (!axis) {
    placed.box = loose_box(prism, at);
    return placed;
  }
  placed.axis = *axis;
  const double start = component(at.origin(), *axis);
  const double end = start + std::copysign(1.0, component(at.z(), *axis)) * prism.length_mm;
  placed.span = {std::min(start, end), std::max(start, end)};
  placed.region = std::make_shared<const Region>(in_plane(prism.profile, at, *axis));
  placed.box = box_of(placed.region->bounds(), placed.span, *axis);
  return placed;
}

PlacedBody place(const Body& body, const Pose& pose) {
  PlacedBody placed;
  placed.exact = body.exact;
  placed.outer = stack_of(body.outer, body.bores, pose);
  placed.inner = body.exact ? placed.outer : stack_of(body.inner, body.bores, pose);
  return placed;
}

PlacedBody body_of_box(const Box3& box) {
  const Vec3 size = box.size();
  const Prism prism{{Loop::rectangle({0, 0}, {size.x, size.y}), {}}, Pose::at(box.low), size.z};
  return place(Body{{prism}, {prism}, true, {}}, Pose{});
}

PlacedPrism moved(const PlacedPrism& prism, Vec3 by) {
  PlacedPrism result = prism;
  result.box = {prism.box.low + by, prism.box.high + by};
  if (prism.axis < 0) return result;
  const double along = component(by, prism.axis);
  result.span = {prism.span.low + along, prism.span.high + along};
  const Vec2 aside = plane_point(by, prism.axis);
  if (!(aside == Vec2{})) result.region = std::make_shared<const Region>(prism.region->moved(aside));
  return result;
}

PlacedBody moved(const PlacedBody& body, Vec3 by) {
  PlacedBody result = body;
  move(result.outer, by);
  move(result.inner, by);
  return result;
}

}  // namespace fitup::checks

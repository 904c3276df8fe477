// Cuts through placed bodies, and their outlines along an axis.
// Entry: cut, shape.
#include "output/section.h"

#include <algorithm>
#include <cmath>

namespace fitup::output {
namespace {

using checks::component;
using checks::PlacedPrism;

// Half the thickness of what counts as cut: thinner than anything that is made.
constexpr double thin_mm = 1e-3;
constexpr double chord_rad = 0.2;

Vec3 in_space(Vec2 p, double along, int axis) {
  std::array<double, 3> c{};
  c[static_cast<std::size_t>(axis)] = along;
  c[static_cast<std::size_t>((axis + 1) % 3)] = p.x;
  c[static_cast<std::size_t>((axis + 2) % 3)] = p.y;
  return {c[0], c[1], c[2]};
}

void add_edge(const Edge& edge, Outline& out) {
  out.push_back(edge.from);
  if (edge.straight()) return;
  const Arc arc = edge.arc();
  const int pieces = std::max(2, static_cast<int>(std::ceil(std::abs(arc.sweep) / chord_rad)));
  for (int i = 1; i < pieces; ++i) {
    const double turn = arc.start + arc.sweep * i / pieces;
    out.push_back(arc.centre + arc.radius * Vec2{std::cos(turn), std::sin(turn)});
  }
}

/// The loops of a prism's region, as the look has them.
void add_profile(const PlacedPrism& prism, const Look& look, std::vector<Outline>& out) {
  const auto add = [&](const Loop& loop) {
    Outline points;
    for (const Edge& edge : loop.edges()) add_edge(edge, points);
    for (Vec2& p : points) p = look.on_paper(in_space(p, prism.span.low, prism.axis));
    out.push_back(std::move(points));
  };
  add(prism.region->profile().outer);
  for (const Loop& hole : prism.region->profile().holes) add(hole);
}

Outline rectangle(const Box2& box) { return {box.low, {box.high.x, box.low.y}, box.high, {box.low.x, box.high.y}}; }

/// A prism that runs across the look: its region cast onto the plane, over its whole length.
void add_strips(const PlacedPrism& prism, const Look& look, double at_mm, std::vector<Outline>& out) {
  const bool cut_in_x = (prism.axis + 1) % 3 == look.axis;
  const auto across = cut_in_x ? geometry::Axis2::x : geometry::Axis2::y;
  for (const auto& piece : geometry::shadow(*prism.region, across, {at_mm - thin_mm, at_mm + thin_mm})) {
    const auto corner = [&](double along, double aside) {
      return look.on_paper(in_space(cut_in_x ? Vec2{at_mm, aside} : Vec2{aside, at_mm}, along, prism.axis));
    };
    Box2 box;
    box.add(corner(prism.span.low, piece.low));
    box.add(corner(prism.span.high, piece.high));
    out.push_back(rectangle(box));
  }
}

}  // namespace

Vec2 Look::on_paper(Vec3 p) const {
  if (axis == 0) return {p.y, p.z};
  if (axis == 1) return {p.x, p.z};
  return {p.x, p.y};
}

Box2 Look::on_paper(const Box3& box) const {
  Box2 result;
  result.add(on_paper(box.low));
  result.add(on_paper(box.high));
  return result;
}

std::vector<Outline> cut(const checks::PlacedBody& body, const Look& look, double at_mm) {
  std::vector<Outline> out;
  for (const PlacedPrism& prism : body.outer.prisms) {
    const bool reached = component(prism.box.low, look.axis) <= at_mm + thin_mm &&
                         component(prism.box.high, look.axis) >= at_mm - thin_mm;
    if (prism.axis < 0 || !reached) continue;
    if (prism.axis == look.axis) {
      add_profile(prism, look, out);
    } else {
      add_strips(prism, look, at_mm, out);
    }
  }
  return out;
}

std::vector<Outline> shape(const checks::PlacedBody& body, const Look& look) {
  std::vector<Outline> out;
  for (const PlacedPrism& prism : body.outer.prisms) {
    if (prism.axis == look.axis) {
      add_profile(prism, look, out);
    } else {
      out.push_back(rectangle(look.on_paper(prism.box)));
    }
  }
  return out;
}

Box2 bounds_of(const std::vector<Outline>& outlines) {
  Box2 box;
  for (const Outline& outline : outlines) {
    for (const Vec2 p : outline) box.add(p);
  }
  return box;
}

bool contains(const std::vector<Outline>& outlines, Vec2 p) {
  bool inside = false;
  for (const Outline& o : outlines) {
    for (std::size_t i = 0, k = o.size() - 1; i < o.size(); k = i++) {
      if ((o[i].y > p.y) != (o[k].y > p.y) && p.x < (o[k].x - o[i].x) * (p.y - o[i].y) / (o[k].y - o[i].y) + o[i].x) {
        inside = !inside;
      }
    }
  }
  return inside;
}

}  // namespace fitup::output

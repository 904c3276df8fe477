// What stands on what.
// Entry: direction_to, carried, stands.
#include "plan/support.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "fitup/tolerances.h"

namespace fitup::plan {

namespace {

constexpr double pi = 3.14159265358979323846;

std::array<double, 3> components(Vec3 v) { return {v.x, v.y, v.z}; }

double shared(double a_low, double a_high, double b_low, double b_high) {
  return std::min(a_high, b_high) - std::max(a_low, b_low);
}

}  // namespace

Box2 footprint(const Box3& box) { return {{box.low.x, box.low.y}, {box.high.x, box.high.y}}; }

std::optional<Box2> common(const Box2& a, const Box2& b) {
  const Box2 both{{std::max(a.low.x, b.low.x), std::max(a.low.y, b.low.y)},
                  {std::min(a.high.x, b.high.x), std::min(a.high.y, b.high.y)}};
  if (std::min(both.size().x, both.size().y) <= tolerance::contact_mm) return std::nullopt;
  return both;
}

std::optional<Vec3> direction_to(const Box3& a, const Box3& b) {
  constexpr std::array<std::array<Vec3, 2>, 3> directions{
      {{axis::minus_x, axis::x}, {axis::minus_y, axis::y}, {axis::minus_z, axis::z}}};
  const auto a_low = components(a.low);
  const auto a_high = components(a.high);
  const auto b_low = components(b.low);
  const auto b_high = components(b.high);
  std::optional<Vec3> found;
  for (std::size_t i = 0; i < 3; ++i) {
    const double s = shared(a_low[i], a_high[i], b_low[i], b_high[i]);
    if (s > tolerance::contact_mm) continue;
    // Apart, or touching along an edge only.
    if (s < -tolerance::contact_mm || found) return std::nullopt;
    found = directions[i][a_high[i] < b_high[i] ? 1 : 0];
  }
  return found;
}

bool meet_along_edge(const Box3& a, const Box3& b) {
  const auto a_low = components(a.low);
  const auto a_high = components(a.high);
  const auto b_low = components(b.low);
  const auto b_high = components(b.high);
  int touching = 0;
  for (std::size_t i = 0; i < 3; ++i) {
    const double s = shared(a_low[i], a_high[i], b_low[i], b_high[i]);
    if (s < -tolerance::contact_mm) return false;
    if (s <= tolerance::contact_mm) ++touching;
  }
  return touching >= 2;
}

std::vector<Box2> carried(const Box2& bottom, double z_mm, const std::vector<Box3>& seats) {
  std::vector<Box2> out;
  for (const Box3& seat : seats) {
    if (std::abs(seat.high.z - z_mm) > tolerance::contact_mm) continue;
    if (const auto both = common(bottom, footprint(seat))) out.push_back(*both);
  }
  return out;
}

// Within the hull exactly if the corners, seen from the place, leave no half turn free.
bool within_hull(Vec2 place, const std::vector<Box2>& carrying) {
  std::vector<double> angles;
  for (const Box2& b : carrying) {
    for (const Vec2 corner : {b.low, Vec2{b.high.x, b.low.y}, b.high, Vec2{b.low.x, b.high.y}}) {
      const Vec2 to = corner - place;
      if (norm(to) > tolerance::contact_mm) angles.push_back(std::atan2(to.y, to.x));
    }
  }
  if (angles.empty()) return false;
  std::sort(angles.begin(), angles.end());
  double widest = angles.front() + 2 * pi - angles.back();
  for (std::size_t i = 1; i < angles.size(); ++i) widest = std::max(widest, angles[i] - angles[i - 1]);
  return widest < pi - tolerance::direction;
}

bool stands(const Box3& box, const std::vector<Box3>& seats) {
  const Box2 bottom = footprint(box);
  return within_hull(0.5 * (bottom.low + bottom.high), carried(bottom, box.low.z, seats));
}

}  // namespace fitup::plan

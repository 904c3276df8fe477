// Tries places round it, the nearest first, and shortens the way to the first that does.
// Entry: short_move.
#include "checks/gland_move.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <utility>
#include <vector>

#include "fitup/tolerances.h"

namespace fitup::checks {

namespace {

constexpr double step_mm = 8;
constexpr double precision_mm = 1e-5;

Prism moved(Prism prism, Vec3 by) {
  prism.pose = Pose::at(prism.pose.origin() + by, prism.pose.x(), prism.pose.y());
  return prism;
}

// So many steps along either axis, of which one is `far`: those that lie nearest first.
std::vector<std::pair<int, int>> places_round(int far) {
  std::vector<std::pair<int, int>> places;
  for (int a = -far; a <= far; ++a) {
    for (int b = -far; b <= far; ++b) {
      if (std::max(std::abs(a), std::abs(b)) == far) places.emplace_back(a, b);
    }
  }
  std::stable_sort(places.begin(), places.end(), [](const auto& p, const auto& q) {
    return std::abs(p.first) + std::abs(p.second) < std::abs(q.first) + std::abs(q.second);
  });
  return places;
}

/// As near to 0 as finds room, step by step, then within the last.
double shortened(double mm, const std::function<bool(double)>& finds_room) {
  const double sign = mm < 0 ? -1 : 1;
  double high = std::abs(mm);
  while (high > 0 && finds_room(sign * std::max(0.0, high - step_mm))) high = std::max(0.0, high - step_mm);
  double low = std::max(0.0, high - step_mm);
  while (high - low > precision_mm) {
    const double middle = (low + high) / 2;
    (finds_room(sign * middle) ? high : low) = middle;
  }
  if (high == 0) return 0;
  return sign * std::round((high + tolerance::contact_mm) / tolerance::contact_mm) * tolerance::contact_mm;
}

}  // namespace

std::optional<Vec3> short_move(Vec3 gland_axis, const std::function<bool(Vec3)>& finds_room) {
  const bool across_x = std::abs(gland_axis.x) > 0.5;
  const Vec3 u = across_x ? axis::y : axis::x;
  const Vec3 v = across_x || std::abs(gland_axis.y) > 0.5 ? axis::z : axis::y;
  for (int far = 1; far * step_mm <= farthest_move_mm; ++far) {
    for (const auto& [a, b] : places_round(far)) {
      double along_u = a * step_mm, along_v = b * step_mm;
      if (!finds_room(along_u * u + along_v * v)) continue;
      along_u = shortened(along_u, [&](double mm) { return finds_room(mm * u + along_v * v); });
      along_v = shortened(along_v, [&](double mm) { return finds_room(along_u * u + mm * v); });
      return along_u * u + along_v * v;
    }
  }
  return std::nullopt;
}

ToolRoom moved_room(ToolRoom room, Vec3 by) {
  room.column = moved(room.column, by);
  if (room.head) room.head = moved(*room.head, by);
  return room;
}

}  // namespace fitup::checks

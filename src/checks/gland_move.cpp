// Tries places round it, the nearest first, and shortens the way to the first that does.
// Entry: short_move, GlandSeat.
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

GlandSeat::GlandSeat(const Scene& scene, InstanceId gland) : scene_(scene), gland_(gland), joined_{gland} {
  const Plan& plan = scene.plan();
  for (const Joint& joint : plan.joints) {
    if (joint.a != gland && joint.b != gland) continue;
    joined_.push_back(joint.a == gland ? joint.b : joint.a);
    find_sheet(joined_.back());
  }
  const Vec3 at = plan.instances[gland].pose.origin();
  for (std::size_t z = 0; z < plan.zones.size(); ++z) {
    const Zone& zone = plan.zones[z];
    const bool of_sheet = std::find(joined_.begin(), joined_.end(), zone.owner) != joined_.end();
    bool behind = true;
    for (int axis = 0; axis < 3; ++axis) {
      const bool along = std::abs(component(plan.instances[gland].pose.z(), axis)) > 0.5;
      behind = behind && (along || (component(zone.box.low, axis) < component(at, axis) &&
                                    component(zone.box.high, axis) > component(at, axis)));
    }
    if (of_sheet && behind) rooms_.push_back(plan.instances.size() + z);
  }
}

void GlandSeat::find_sheet(InstanceId host) {
  const Plan& plan = scene_.plan();
  const auto* flat = std::get_if<Flat>(&plan.parts[plan.instances[host].part].form);
  if (flat == nullptr || !flat->bends.empty()) return;
  const Vec3 at = plan.instances[host].pose.local(plan.instances[gland_].pose.origin());
  Profile rest = flat->profile;
  for (std::size_t i = 0; i < rest.holes.size(); ++i) {
    const auto circle = rest.holes[i].as_circle();
    if (!circle || norm(circle->centre - Vec2{at.x, at.y}) > tolerance::contact_mm) continue;
    hole_mm_ = 2 * circle->radius;
    rest.holes.erase(rest.holes.begin() + static_cast<std::ptrdiff_t>(i));
    pose_ = plan.instances[host].pose;
    web_mm_ = std::max(plan.cut_rules.smallest_web, plan.cut_rules.asked_below) * flat->thickness_mm;
    sheet_.emplace(std::move(rest));
    return;
  }
}

bool GlandSeat::is_good(Vec3 by) const {
  if (!takes_hole(by) || !is_free(scene_.body(gland_), by)) return false;
  return std::all_of(rooms_.begin(), rooms_.end(), [&](Thing room) { return is_free(scene_.body(room), by); });
}

bool GlandSeat::takes_hole(Vec3 by) const {
  if (!sheet_) return true;
  const Vec3 at = pose_.local(scene_.plan().instances[gland_].pose.origin() + by);
  const double needed = hole_mm_ / 2 + web_mm_ - tolerance::contact_mm;
  return sheet_->contains({at.x, at.y}) && sheet_->distance_to_outline_mm({at.x, at.y}) >= needed;
}

bool GlandSeat::is_free(const PlacedBody& body, Vec3 by) const {
  const PlacedBody there = moved(body, by);
  for (InstanceId id = 0; id < scene_.plan().instances.size(); ++id) {
    if (std::find(joined_.begin(), joined_.end(), id) != joined_.end()) continue;
    if (decide(there, scene_.body(id)) == Decision::overlap) return false;
  }
  return true;
}

ToolRoom moved_room(ToolRoom room, Vec3 by) {
  room.column = moved(room.column, by);
  if (room.head) room.head = moved(*room.head, by);
  return room;
}

}  // namespace fitup::checks

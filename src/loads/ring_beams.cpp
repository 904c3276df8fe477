// Members of a base ring to beams with stations.
// Entry: RingBeams.
#include "loads/ring_beams.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace fitup::loads {

namespace {

// Stations nearer along a beam are one.
constexpr double one_station_mm = 8;

Role role_of(const Plan& plan, InstanceId id) { return plan.parts[plan.instances[id].part].role; }

}  // namespace

bool has_base_ring(const Plan& plan) {
  return std::any_of(plan.joints.begin(), plan.joints.end(), [&](const Joint& j) {
    const Role a = role_of(plan, j.a), b = role_of(plan, j.b);
    return j.kind == JointKind::weld && std::minmax(a, b) == std::minmax(Role::wall, Role::ring_member);
  });
}

RingBeams::RingBeams(const Plan& plan) {
  if (!has_base_ring(plan)) return;
  for (InstanceId i = 0; i < plan.instances.size(); ++i) {
    if (role_of(plan, i) != Role::ring_member) continue;
    if (auto line = centroid_line(plan, i)) lines_.emplace(i, *line);
  }
}

std::size_t RingBeams::station(InstanceId of, Vec3 near) {
  const CentroidLine& line = lines_.at(of);
  const double along = std::clamp(line.along(near), 0.0, line.length_mm());
  std::vector<double>& all = stations_[of];
  const auto nearest = std::min_element(all.begin(), all.end(),
                                        [&](double a, double b) { return std::abs(a - along) < std::abs(b - along); });
  if (nearest != all.end() && std::abs(*nearest - along) <= one_station_mm)
    return static_cast<std::size_t>(nearest - all.begin());
  all.push_back(along);
  return all.size() - 1;
}

Vec3 RingBeams::at(InstanceId of, std::size_t station) const { return lines_.at(of).at(stations_.at(of)[station]); }

void RingBeams::let_turn(InstanceId of, std::size_t station, const Seam& line) {
  const Vec3 along = line.to - line.from;
  hinges_.insert_or_assign({of, station}, Hinge{(1 / norm(along)) * along, 0.5 * (line.from + line.to)});
}

std::optional<Hinge> RingBeams::hinge(InstanceId of, std::size_t station, Vec3 node) const {
  const auto known = hinges_.find({of, station});
  if (known == hinges_.end()) return std::nullopt;
  return Hinge{known->second.axis, known->second.at - node};
}

InstanceId RingBeams::ends_at(InstanceId a, InstanceId b, Vec3 place) const {
  const auto to_end = [&](InstanceId id) {
    const CentroidLine& line = lines_.at(id);
    return std::min(std::abs(line.along(place)), std::abs(line.length_mm() - line.along(place)));
  };
  return to_end(b) < to_end(a) ? b : a;
}

std::vector<InstanceId> RingBeams::beams() const {
  std::vector<InstanceId> all;
  for (const auto& [id, stations] : stations_) {
    if (stations.size() > 1) all.push_back(id);
  }
  return all;
}

std::vector<std::size_t> RingBeams::along(InstanceId of) const {
  const std::vector<double>& all = stations_.at(of);
  std::vector<std::size_t> order(all.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return all[a] < all[b]; });
  return order;
}

}  // namespace fitup::loads

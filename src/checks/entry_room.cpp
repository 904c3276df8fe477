// How long a thing is along its way, and how much room the bay leaves for that.
// Entry: lacking_room.
#include "checks/entry_room.h"

#include <cmath>

#include "fitup/tolerances.h"

namespace fitup::checks {

namespace {

// From its place back to where it is just before the frame.
Vec3 ahead_of(const PlacedFrame& frame, const Box3& own, Vec3 way) {
  const auto along = [](double direction, double from_low, double from_high) {
    return direction > 0 ? from_low : direction < 0 ? from_high : 0;
  };
  return {along(way.x, own.high.x - frame.space.low.x, own.low.x - frame.space.high.x),
          along(way.y, own.high.y - frame.space.low.y, own.low.y - frame.space.high.y),
          along(way.z, own.high.z - frame.space.low.z, own.low.z - frame.space.high.z)};
}

}  // namespace

std::optional<LackingRoom> lacking_room(const PlacedFrame& frame, const Box3& own, Vec3 way) {
  constexpr std::array<Vec3, 6> ways_in{axis::y, axis::minus_y, axis::x, axis::minus_x, axis::minus_z, axis::z};
  constexpr std::array<std::string_view, 6> faces{"front", "back", "left", "right", "top", "bottom"};
  for (std::size_t i = 0; i < faces.size(); ++i) {
    if (!(ways_in[i] == way) || !frame.bay_mm[i]) continue;
    const double needed = std::abs(dot(own.size(), way));
    const double room = *frame.bay_mm[i];
    if (room >= needed - tolerance::contact_mm) continue;
    return LackingRoom{faces[i], needed, room, own.middle() - ahead_of(frame, own, way)};
  }
  return std::nullopt;
}

}  // namespace fitup::checks

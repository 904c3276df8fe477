// Boxes of what moves with a rod plate against those of what does not.
// Entry: room_before.
#include "loads/rod_plate_room.h"

#include <set>
#include <vector>

#include "fitup/tolerances.h"
#include "loads/held_bodies.h"
#include "loads/load_paths.h"

namespace fitup::loads {

namespace {

struct Moving {
  InstanceId of = 0;
  Box3 box;
};

/// Items with a hole in the plate, and what goes through it.
std::set<InstanceId> hung_on(const Plan& plan, InstanceId plate) {
  std::set<InstanceId> hung;
  for (const Pattern& pattern : plan.patterns) {
    for (const PatternBody& body : pattern.bodies) {
      if (plan.parts[plan.instances[body.thing].part].role != Role::item) continue;
      for (const PatternHole& h : body.holes) {
        if (h.plate != plate) continue;
        hung.insert(body.thing);
        hung.insert(h.fastener);
      }
    }
  }
  return hung;
}

bool stands_still(Role role) {
  return role == Role::cover_sheet || role == Role::cover_flange || role == Role::face_plate || role == Role::wall ||
         role == Role::item;
}

}  // namespace

RoomBefore room_before(const Plan& plan, InstanceId plate, Vec3 way) {
  const std::set<InstanceId> hung = hung_on(plan, plate);
  std::vector<Moving> moving;
  for (const InstanceId id : hung) moving.push_back({id, box_of(plan, id)});
  for (const Zone& zone : plan.zones) {
    if (hung.contains(zone.owner)) moving.push_back({zone.owner, zone.box});
  }
  RoomBefore room;
  for (InstanceId id = 0; id < plan.instances.size(); ++id) {
    if (hung.contains(id) || !stands_still(plan.parts[plan.instances[id].part].role)) continue;
    const Box3 still = box_of(plan, id);
    for (const Moving& m : moving) {
      const auto gap = gap_before(m.box, still, way);
      if (!gap || *gap < -tolerance::contact_mm) continue;  // beside it, or round it
      auto& of = *gap <= tolerance::contact_mm ? room.leaning : room.least;
      if (!of || *gap < of->mm) of = RodPlateRoom{*gap, m.of, id};
    }
  }
  return room;
}

}  // namespace fitup::loads

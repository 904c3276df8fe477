// The washer and the outer nut on a rod.
// Entry: add_outer_nut.
#include "plan/outer_nut.h"

#include <fmt/format.h>

#include "plan/hardware.h"

namespace fitup::plan {

void add_outer_nut(Build& build, const OuterNutPlace& place) {
  const Thread& thread = *tables::find_thread(place.thread);
  const Washer& washer = *tables::find_washer(place.thread);
  Draft& draft = build.draft;
  const Vec3 at = draft.pose(place.rod).origin();
  const std::string name = draft.instance(place.rod).name;
  const Origin origin{build.key("rod_plates"), build.box_spec().rod_plates->thickness.place, "rod nuts"};
  const InstanceId w = draft.add(plain_washer(washer), along({at.x, place.outer_y, at.z}, place.outward),
                                 fmt::format("{} washer {}", name, place.side), origin);
  const double seat = place.outer_y + place.outward.y * washer.thickness_mm;
  const InstanceId n =
      draft.add(hex_nut(thread, *tables::find_nut(place.thread)), along({at.x, seat, at.z}, place.outward),
                fmt::format("{} outer nut {}", name, place.side), origin);
  draft.join(w, place.plate, JointKind::bearing, Vec3{} - place.outward);
  draft.join(w, place.rod, JointKind::slip, axis::x);
  draft.join(n, w, JointKind::bearing, Vec3{} - place.outward);
  draft.join(n, place.rod, JointKind::thread, axis::y, 0, thread.major_mm);
}

}  // namespace fitup::plan

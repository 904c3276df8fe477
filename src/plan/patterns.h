#pragma once
// Fasteners that must go together, noted where their holes are made. Private to the plan.

#include <string>
#include <vector>

#include "plan/build.h"
#include "plan/holes.h"
#include "plan/screw_fixing.h"

namespace fitup::plan {

/// A rod of the item with this number in the hole of a rod plate; both plates' holes are one pattern.
struct RodInPlate {
  std::size_t item = 0;
  InstanceId thing = 0;
  InstanceId rod = 0;
  InstanceId plate = 0;
  Vec3 at;
  Vec3 along;
  double hole_mm = 0;
};
void note_rod(Build& build, const RodInPlate& rod);

/// A screw that was put in: all with one origin's group are one pattern, and what they hold moves as one.
void note_screw(Build& build, const ScrewPlace& place, const ScrewHold& hold, InstanceId screw);

/// A bolt through clear holes in all its layers.
void note_bolt(Build& build, const std::string& thread, Vec3 seat, Vec3 direction, const std::vector<Layer>& layers,
               const Origin& origin, InstanceId screw);

/// A bolt that is in no list, through a foot or lug into what the box stands or hangs on.
struct BoltThroughMount {
  InstanceId mount = 0;
  Vec3 at;
  Vec3 along;
  Vec3 slot_along;
  double hole_mm = 0;
  double slot_mm = 0;
};
void note_mount(Build& build, const std::string& noun, const std::string& key, const MountSpec& spec,
                const BoltThroughMount& bolt);

/// How far an item may be pushed to the left and to the right, its neighbours giving way to the walls.
[[nodiscard]] std::array<double, 2> room_beside(const Build& build, std::size_t item);

/// How far a rod of this item may stand off the middle of its hole in the rod plates, both ways together.
[[nodiscard]] double rod_play_mm(const Build& build, const ItemSpec& item);

/// Whether its rods are held by rod plates.
[[nodiscard]] bool is_in_holes(const Build& build, std::size_t item);

// What measured sizes and places can be off: rows and the space they have; strips on their rails.
void add_stacks(Build& build, const PlacedHardware& hardware);
void add_strip_seats(Build& build, const PlacedHardware& hardware, const std::vector<Host>& rails);

}  // namespace fitup::plan

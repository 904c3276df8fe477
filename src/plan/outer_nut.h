#pragma once
// What stands on a rod outside its rod plate, and before it where its item is less deep than others. Private to the
// plan.

#include <string>

#include "plan/build.h"

namespace fitup::plan {

struct OuterNutPlace {
  InstanceId rod = 0;
  InstanceId plate = 0;
  std::string thread;
  double outer_y = 0;  // of the plate's surface that the washer lies on
  Vec3 outward;        // along Y
  std::string side;    // "front"
  const RodSpec* rods = nullptr;
};
/// Whether the item's rods are long enough for what stands on them, and the tables have all of it; says why not. The
/// inner nut that the plate lies on stands `off_mm` before the one at the item.
bool carries_stack(Build& build, const ItemSpec& item, double plate_mm, double off_mm);

/// The key of what the tables lack of an item's hardware for rods like these; empty where they have all of it.
[[nodiscard]] std::string lacking_hardware(const ItemSpec& item, const RodSpec& rods);

/// Of projection, for what stands on each of the rods: an inner nut, the plate, a washer, a nut, and two threads.
[[nodiscard]] double stack_needed_mm(const Build& build, const RodSpec& rods, double plate_mm, double off_mm);

struct SecondNutPlace {
  InstanceId item = 0;
  InstanceId rod = 0;
  InstanceId inner_nut = 0;
  double inner_y = 0;  // of the plate's surface that lies on it
  Vec3 outward;        // along Y
  std::string side;    // "front"
  const RodSpec* rods = nullptr;
};
/// On the rod of an item that is less deep than others; returns it.
InstanceId add_second_nut(Build& build, const SecondNutPlace& place);

/// A washer on the plate and a nut on the washer.
void add_outer_nut(Build& build, const OuterNutPlace& place);

}  // namespace fitup::plan

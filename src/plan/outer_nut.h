#pragma once
// What stands on a rod outside its rod plate. Private to the plan.

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
/// What stands on a rod beyond its item's end face, one after the other.
struct RodStack {
  double needed_mm = 0;  // of projection
  std::string words;     // the sum, term by term
};
[[nodiscard]] RodStack rod_stack(const Build& build, const RodSpec& rods, double plate_mm);

/// Says which hardware the tables lack for this thread; true if they lack none.
bool has_rod_hardware(Build& build, const ItemSpec& item);

/// A washer on the plate and a nut on the washer.
void add_outer_nut(Build& build, const OuterNutPlace& place);

}  // namespace fitup::plan

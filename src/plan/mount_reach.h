#pragma once
// What brings an item that is held by its own holes to the plate, or between the uprights, that hold it: in words that
// follow a semicolon. Private to the plan.

#include <string>

#include "plan/build.h"

namespace fitup::plan {

/// Thicker ones between an item and its plate are bridged between the uprights (common practice).
inline constexpr double thickest_filler_mm = 25;

/// Where an item's hole stands before the face that is to hold it.
struct MountReach {
  Face face = Face::back;
  std::size_t item = 0;  // of the box
  double at_mm = 0;      // along the face's normal, in the frame
  double wall_mm = 0;    // what the frame takes there between its outside and its inside
};

/// Where it stands too far off the plate.
[[nodiscard]] std::string nearer_to_plate_words(const Build& build, const MountReach& reach);

/// Where a strip `thick_mm` behind it does not lie beside uprights that reach `wide_mm` in.
[[nodiscard]] std::string between_uprights_words(const Build& build, const MountReach& reach, double thick_mm,
                                                 double wide_mm);

}  // namespace fitup::plan

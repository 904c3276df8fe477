#pragma once
// What earlier members take from one leg of a member, in the leg's own coordinates. Private to the plan.

#include <array>
#include <string>
#include <vector>

#include "fitup/plan.h"

namespace fitup::plan {

/// Places nearer than this are the same place of a cut: above the rounding of sums of snapped lengths, below
/// the contact band.
inline constexpr double same_place_mm = 1e-6;

/// A neighbour that comes earlier: its section, where it stands (section in the pose's x-y, running along
/// its z), its own uncut length.
struct Obstacle {
  Section section;
  Pose pose;
  double length_mm = 0;
  std::string name;
  /// The member lies against the inner face of one of its legs, which the Plan declares: that leg is no
  /// obstacle; the member ends beyond the other leg's root (thickness + root radius + gap).
  bool lapped = false;
};

struct Range {
  double low = 0;
  double high = 0;
  [[nodiscard]] bool meets(const Range& o) const {
    return low < o.high - same_place_mm && o.low < high - same_place_mm;
  }
};

/// Across the leg from its heel edge and along the member from its nominal start: taken through the whole
/// thickness.
struct Take {
  Range across;
  Range along;
  std::size_t obstacle = 0;
};

/// The root fillet of an obstacle, seen end-on in the leg's plane: it fills the corner at (across, along) and
/// opens towards the two signs.
struct Root {
  double across = 0;
  double along = 0;
  double across_sign = 1;
  double along_sign = 1;
  double radius_mm = 0;  // grown by the gap: smaller than the obstacle's
  std::size_t obstacle = 0;
};

struct LegTakes {
  std::vector<Take> takes;
  std::vector<Root> roots;
};

/// The obstacles' profiles grown by `gap_mm`: outer corners sharp, toes square, root radius smaller by the gap on
/// the same centre, ends longer by the gap. Precondition: all axes are parallel to the world's.
[[nodiscard]] LegTakes takes_of_leg(const Member& member, const Pose& pose, Leg leg,
                                    const std::vector<Obstacle>& obstacles, double gap_mm);

[[nodiscard]] inline double width_mm(const Section& section, Leg leg) {
  return leg == Leg::a ? section.leg_a_mm : section.leg_b_mm;
}

}  // namespace fitup::plan

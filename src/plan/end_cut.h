#pragma once
// End cuts from numbers: what a member loses where it enters the profile of members that come before it.
// Private to the plan.

#include <string>
#include <vector>

#include "fitup/plan.h"

namespace fitup::plan {

/// A neighbour that comes earlier: its section, where it stands (section in the pose's x-y, running along
/// its z), its own uncut length.
struct Obstacle {
  Section section;
  Pose pose;
  double length_mm = 0;
  std::string name;
};

struct EndCutOptions {
  double gap_mm = 1;                          // cope gap
  CornerKind corner = CornerKind::chamfer;    // how a root is cleared: what a shop saws, or a radius
};

/// Largest clearance beyond the gap that the rules below may leave between a member and what it yields to:
/// a stub up to max(2 t, 10 mm) is cut off, and steps of less than `level_mm` are levelled.
inline constexpr double least_stub_mm = 10;
inline constexpr double level_mm = 2;

struct EndCutResult {
  bool ok = false;
  std::string problem;   // where not ok: what crosses where
  std::string obstacle;  // its name
};

/// Sets `member.start` and `member.end` (square cuts where nothing is in the way). Then shortens the member
/// to what is left of it: length, pose and holes move so that the smallest set-back of each end is 0.
/// An obstacle that crosses mid-run, or leaves nothing, is a problem and leaves the member as it was.
/// Precondition: the member has no holes yet; all axes are parallel to the world's.
[[nodiscard]] EndCutResult derive_end_cuts(Member& member, Pose& pose, const std::vector<Obstacle>& obstacles,
                                           const EndCutOptions& options);

/// A square cut of both legs.
[[nodiscard]] EndCut square_cut(const Section& section);

}  // namespace fitup::plan

#pragma once
// The straight lines of seams that hold a plate.

#include <set>
#include <vector>

#include "fitup/seams.h"

namespace fitup::loads {

/// One, seen from a place in the plate.
struct HeldLine {
  Vec3 at;             // the place on it that is beside that
  Vec3 along;          // a unit vector in the plate's plane
  double off_mm = 0;   // how far away it is in the plate's plane
  double from_mm = 0;  // along it, from `at`
  double to_mm = 0;
  double share = 1;    // of it that counts as welded: share_of the most broken of its seams
  InstanceId root = 0;  // what the plate is welded to there
};

/// Those that have the place beside them, the nearest first; pieces of one line between the same two parts are one, as
/// tabs and vents only interrupt it. Nothing of seams with what is in `but`, of rings, and of what holds nothing.
[[nodiscard]] std::vector<HeldLine> held_lines(const Plan& plan, const Seams& seams, InstanceId plate, Vec3 place,
                                               const std::set<InstanceId>& but);

/// Whether seams lie round most of a flat part's outline: beads leave out corners and what stands in their way. Those
/// with what is in `but` are no part of it.
[[nodiscard]] bool is_welded_round(const Plan& plan, const Seams& seams, InstanceId flat,
                                   const std::set<InstanceId>& but = {});

}  // namespace fitup::loads

#pragma once
// Of groups of seams that carry something the one that uses most of what it may carry, and what is said of it.

#include <optional>
#include <string>

#include "fitup/findings.h"
#include "loads/frame_check.h"
#include "loads/joint_groups.h"
#include "loads/weld_limits.h"

namespace fitup::loads {

struct WorstSeam {
  double utilisation = -1;  // below 0: none was looked at
  GroupStress stress;
  WeldLimit limit;
  double force_n = 0;
  double moment_nmm = 0;  // about the seams' middle; of sheet about its seam
  JointGroup group;
  std::string words;               // the case's
  std::optional<EdgeStress> edge;  // of sheet
};

/// The force at a place, and a moment beside it, through all seams of the group: it stays if it is the worst so far.
bool take(WorstSeam& worst, const JointGroup& group, const LoadRules& rules, LoadKind kind, const std::string& words,
          Vec3 force, Vec3 at, Vec3 moment);

/// Likewise of a sheet's edge.
void take_edge(WorstSeam& worst, const JointGroup& group, const EdgeStress& edge, const LoadRules& rules,
               const FrameCase& of, double force_n);

/// `what`: among which seams it is the worst, "rails".
[[nodiscard]] Finding finding_of(const Plan& plan, const WorstSeam& worst, const char* what);

}  // namespace fitup::loads

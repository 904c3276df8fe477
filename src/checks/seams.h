#pragma once
// The seams of a plan whose instances are placed already.

#include <vector>

#include "checks/placed.h"
#include "fitup/seams.h"

namespace fitup::checks {

/// A bead as what stands there. One that runs askew is known by the boxes of short pieces.
[[nodiscard]] PlacedBody body_of_bead(const Prism& bead);

/// A stretch of a seam in which there is to be no bead: where it lies in the box.
struct KeepFree {
  std::size_t seam = 0;  // of Seams::all
  Box3 room;
  InstanceId of = 0;
};
/// Fillets are left away there, caps ground flush.
void leave_free(Seams& seams, std::vector<KeepFree> wanted);

/// A fillet that is laid: intermittent butt welds are not used (EN 1993-1-8, 4.3.5, from memory), and a cap is one.
[[nodiscard]] bool may_be_intermittent(const Seam& seam);
/// Such seams become so where their rule says it and stitch_on finds room.
void lay_at_intervals(const Plan& plan, Seams& seams);

/// `bodies`: of the plan's instances, then of its zones.
[[nodiscard]] Seams seams_of(const Plan& plan, const std::vector<PlacedBody>& bodies);

/// Of a part, to weld on.
[[nodiscard]] double thickness_mm(const Plan& plan, InstanceId id);

/// The rule of a weld joint.
[[nodiscard]] const WeldRule& weld_rule(const Plan& plan, const Joint& joint);

}  // namespace fitup::checks

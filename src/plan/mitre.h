#pragma once
// Ends sawn off at 45 degrees: cut, body and volume from the section alone. Private to the plan.

#include "plan/end_cut.h"

namespace fitup::plan {

/// Mitres both ends along `leg`, each half the gap behind the plane through the corner that two members share: length
/// and pose move so that the heel is the real end. What would leave too little is a problem and leaves the member as it
/// was. Precondition: an equal angle with square ends.
[[nodiscard]] EndCutResult mitre_ends(Member& member, Pose& pose, Leg leg, const EndCutOptions& options);

[[nodiscard]] Member without_mitres(Member member);

/// What the mitres take of the section run from end to end: each the section's first moment about the heel edge.
[[nodiscard]] double mitre_loss_mm3(const Member& member);

/// How far from an end its mitre reaches; 0 where it has none.
[[nodiscard]] double mitre_run_mm(const Section& section, const EndCut& end);

/// The mitred runs of both ends as prisms across the mitre's leg: exact but for the root fillet, which is bounded by
/// layers, and the toes' rounding.
void add_mitred_runs(const Member& member, Body& body);

}  // namespace fitup::plan

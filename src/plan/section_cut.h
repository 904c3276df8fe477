#pragma once
// What an end-cut member keeps of its section at a distance along it. Private to the plan.

#include <vector>

#include "fitup/plan.h"

namespace fitup::plan {

struct Interval {
  double low = 0;
  double high = 0;
};
using Intervals = std::vector<Interval>;  // disjoint, ascending

/// Distances along the member at which what is kept may change, 0 and the length included, ascending.
[[nodiscard]] std::vector<double> breakpoints(const Member& member);

/// Where along the member a chamfered or rounded corner is being taken off, so that the section changes steadily.
[[nodiscard]] Intervals corner_runs(const Member& member);

/// The part of the leg's width (from the heel edge) that is kept at `along_mm`, corners and notches taken off.
[[nodiscard]] Intervals kept_at(const Member& member, Leg leg, double along_mm);

/// What is kept of the section where these parts of its legs are kept: touching profiles without overlap. The square
/// where the legs cross stays where both stay, the root fillet where either does.
[[nodiscard]] std::vector<Profile> kept_pieces(const Section& section, const Intervals& a, const Intervals& b);

/// Depth of a root fillet beyond a leg's inner face, `from_face_mm` from the other leg's inner face: the whole
/// radius at that face, 0 from the radius on.
[[nodiscard]] double fillet_depth_mm(double radius_mm, double from_face_mm);

}  // namespace fitup::plan

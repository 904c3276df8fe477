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

/// How a chamfered or rounded corner is read: as it is, as if it were not taken off (outer), or as if the
/// band beside it ended where the corner begins (inner).
enum class CornerReading { exact, outer, inner };

/// Distances along the member at which what is kept may change, 0 and the length included, ascending.
[[nodiscard]] std::vector<double> breakpoints(const Member& member);

/// The part of the leg's width (from the heel edge) that is kept at `along_mm`.
[[nodiscard]] Intervals kept_at(const Member& member, Leg leg, double along_mm, CornerReading reading);

/// Area of what is kept of the section at `along_mm`, holes not counted.
[[nodiscard]] double kept_area_mm2(const Member& member, double along_mm);

/// What is kept of the section there, as touching profiles without overlap. `exact` is false where the root
/// fillet is taken from both sides and only a bound can be given.
struct SectionPieces {
  std::vector<Profile> profiles;
  bool exact = true;
};
[[nodiscard]] SectionPieces kept_pieces(const Section& section, const Intervals& a, const Intervals& b,
                                        CornerReading reading);

/// Depth of the root fillet beyond a leg's inner face, `from_face_mm` from the other leg's inner face.
[[nodiscard]] double fillet_depth_mm(const Section& section, double from_face_mm);

}  // namespace fitup::plan

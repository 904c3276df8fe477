#pragma once
// The exact rules for a pair of placed prisms, and how they make up the answer for two bodies.
// No solid kernel. What a rule cannot decide is `unsure`.

#include <optional>

#include "checks/placed.h"

namespace fitup::checks {

enum class Decision { clear, touch, overlap, unsure };

/// Each rule is replaceable, so that tests can show what happens without it.
struct Rules {
  using Spans = Contact (*)(Interval, Interval, double band_mm);
  using Quick = std::optional<Contact> (*)(const Region&, const Region&, double band_mm);
  using Regions = Contact (*)(const Region&, const Region&, double band_mm);
  using Shadow = std::vector<Interval> (*)(const Region&, geometry::Axis2 across, Interval strip);
  /// How far a disc of radius `r`, `off` from a bore's axis, stands from the bore's wall; negative: it does not fit.
  using Slack = double (*)(double bore_radius, double r, double off);

  Spans spans = geometry::relate_intervals;
  Quick discs = geometry::relate_discs;
  Quick rectangles = geometry::relate_rectangles;
  Regions regions = geometry::relate;
  Shadow shadow = geometry::shadow;
  Slack slack = [](double bore_radius, double r, double off) { return bore_radius - r - off; };
};

/// Parallel axes: the spans, then the regions. Perpendicular axes: each region clipped to the other's span and cast
/// onto the third axis; what enters less than the band is cut away before, what is less than the band off is added.
[[nodiscard]] Decision decide(const PlacedPrism& a, const PlacedPrism& b, const Rules& rules = {});

/// `thread_major_mm` > 0: the pair is a screw in its thread; a round hole coaxial with a round prism of the other
/// counts as having at least that diameter.
struct PairOptions {
  double thread_major_mm = 0;
  Rules rules;
};

/// Two bodies. Outer stacks clear: clear. Inner stacks overlap: overlap. Outer stacks touch and inner ones too: touch
/// (what lies between neither overlaps nor stands off). Both exact: the answer. Else unsure.
/// A round prism that fits a bore of the other is not tested against that body where it runs in the bore. Other
/// overlaps that a bore might save are unsure.
[[nodiscard]] Decision decide(const PlacedBody& a, const PlacedBody& b, const PairOptions& options = {});

/// What the boxes of those pairs of prisms have in common that overlap, else of those that touch, else of the bodies.
[[nodiscard]] Box3 common_box(const PlacedBody& a, const PlacedBody& b);

}  // namespace fitup::checks

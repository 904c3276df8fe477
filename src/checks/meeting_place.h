#pragma once
// Where two bodies meet: closer than by their boxes, so that a place lies in what both really have in common.

#include "checks/rules.h"

namespace fitup::checks {

/// The box of what the two have in common, where they overlap; else of where they touch; else what their boxes share.
/// As `common_box`, but each pair of prisms by what of its regions lies within the other, and of several places the
/// largest.
[[nodiscard]] Box3 meeting_box(const PlacedBody& a, const PlacedBody& b);

/// Midway between the two faces that would meet first if `a` came `gap_mm` along `normal` (a unit vector).
[[nodiscard]] Vec3 place_between(const PlacedBody& a, const PlacedBody& b, Vec3 normal, double gap_mm);

}  // namespace fitup::checks

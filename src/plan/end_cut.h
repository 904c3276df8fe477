#pragma once
// End cuts from numbers: what a member loses where it enters the profile of members that come before it.
// Private to the plan.

#include <string>
#include <vector>

#include "fitup/plan.h"
#include "fitup/quantity.h"
#include "plan/end_takes.h"

namespace fitup::plan {

struct EndCutOptions {
  double gap_mm = 1;                        // cope gap
  CornerKind corner = CornerKind::chamfer;  // how a root is cleared: what a shop saws, or a radius
  UnitSystem units = UnitSystem::mm_kg;     // of the words of a problem
  bool square = false;                      // one saw cut: the whole end goes as far back as its deepest step
};

/// What a shop cannot make or use is taken off with what is beside it: a tongue narrower than max(2 t,
/// least_stub_mm) is cut off square, a step or a ledge smaller than level_mm is levelled to the deeper side.
inline constexpr double least_stub_mm = 10;
inline constexpr double level_mm = 2;
[[nodiscard]] double stub_mm(const Section& section);

struct EndCutResult {
  bool ok = false;
  std::string problem;  // where not ok: what crosses where
};

/// Sets `member.start` and `member.end` (square cuts where nothing is in the way). Then shortens the member
/// to what is left of it: length and pose move so that the smallest set-back of each end is 0. Set-backs,
/// corners and length lie on the snap grid. Where the legs cross, both have the same set-back.
/// An obstacle that crosses mid-run, or leaves too little, is a problem and leaves the member as it was.
/// Precondition: the member has no holes yet; all axes are parallel to the world's.
[[nodiscard]] EndCutResult derive_end_cuts(Member& member, Pose& pose, const std::vector<Obstacle>& obstacles,
                                           const EndCutOptions& options);

/// A length in the words of a problem: to a tenth of a millimetre, not below 0.
[[nodiscard]] std::string in_words(double mm, UnitSystem units);

/// Takes `back_mm` from one end of a leg over what lies `from_heel_mm` and more from its heel. The member has been cut
/// to its ends.
void take_from_end(EndCut& end, const Section& section, Leg leg, double from_heel_mm, double back_mm);

/// A square cut of both legs.
[[nodiscard]] EndCut square_cut(const Section& section);

}  // namespace fitup::plan

#pragma once
// The joints by which flat parts find their places in each other, as outlines in a plane. Private to the plate build.
//
// A plate that stands on another's face has tabs that go through closed slots; where two meet at an edge the slots are
// notches in that edge, and the two interlock; where two cross, each is slotted to half the height that they share.

#include <array>
#include <optional>
#include <vector>

#include "fitup/cut_rules.h"
#include "fitup/geometry.h"

namespace fitup::plan::plate {

/// How loosely a plate of one thickness goes through another: what the sheet may be thicker, what the cut may be off,
/// and the air that lets a hand push it in (0.1 to 0.2 mm, common practice).
struct JointFit {
  double thickness_mm = 0;
  double over_mm = 0;
  double cut_mm = 0;
  double air_mm = 0.15;
  /// Across the plate that goes through.
  [[nodiscard]] double slot_mm() const { return thickness_mm + over_mm + cut_mm + air_mm; }
  /// What a slot is longer than its tab.
  [[nodiscard]] double longer_mm() const { return cut_mm + air_mm; }
};
[[nodiscard]] JointFit joint_fit(double thickness_mm, bool steel, CutClass tolerance = CutClass::one);

/// From the face of what goes through a slot to the next edge: the web, at least a thickness, and what the slot is wider.
[[nodiscard]] double beside_slot_mm(const JointFit& fit, double smallest_web);

/// From here to there along a seam or an edge.
struct Stretch {
  double from_mm = 0;
  double to_mm = 0;
  [[nodiscard]] double length_mm() const { return to_mm - from_mm; }
  [[nodiscard]] double middle_mm() const { return (from_mm + to_mm) / 2; }
};

/// Tabs along a seam that begins at 0: a fifth of the seam long, between 2.5 and 10 thicknesses, one for each 40
/// thicknesses, two at least where there is room; evenly spread, so that a part may be turned round. `aside`: 1 or -1,
/// all are moved along or back by a quarter of what is free between two, so that it may not. None where there is no
/// room for one with `beside_mm` free at either end, a thickness without it.
[[nodiscard]] std::vector<Stretch> tabs_along(double seam_mm, double thickness_mm, int aside = 0,
                                              std::optional<double> beside_mm = {});

/// Radius of the reliefs in the inner corners of plates of that thickness, and not below what the cutter turns in.
[[nodiscard]] double relief_mm(double thickness_mm, double least_mm = 0);

/// A slot: a rectangle, longer or as long along x as along y or the other way round. Its ends are relieved beside both
/// long sides by half circles, so that what goes through may have square corners; they are not wider than two fifths of
/// the slot, or than what `least_mm` asks for where the slot has room for it.
[[nodiscard]] Loop closed_slot(Vec2 low, Vec2 high, double relief_mm, double least_mm = 0);

/// A part of an edge that stands out of a rectangle's side, or back from it where `out_mm` is below 0.
struct Step {
  Stretch along;
  double out_mm = 0;
};

/// Index of the sides of an outline: y = 0, x = width, y = height, x = 0; each is counted along x or y.
enum Side4 { bottom_side, right_side, top_side, left_side };

/// A rectangle from (0, 0) with steps in its sides; of steps that share a part of a side the later one holds there.
/// Inner corners beside a riser are relieved by half circles in the lower part of the edge. Corners are those of the
/// stretches beside them.
[[nodiscard]] Loop stepped_outline(Vec2 size, const std::array<std::vector<Step>, 4>& sides, double relief_mm);

/// Two plates that cross, each slotted from its own side: width and depth of the slots, which leave air between their
/// grounds. `shared_mm`: height that both have at the crossing.
struct HalfLap {
  double slot_mm = 0;
  double depth_mm = 0;
};
[[nodiscard]] HalfLap half_lap(double shared_mm, const JointFit& through);

}  // namespace fitup::plan::plate

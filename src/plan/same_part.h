#pragma once
// When two parts are one: a proper rotation carries one onto the other. Decided from their data.

#include <string>
#include <vector>

#include "fitup/plan.h"

namespace fitup::plan {

/// A text that two parts share exactly if they are one, and the rotation (part to that common attitude).
struct Attitude {
  std::string key;
  Pose to_common;
  std::vector<Pose> turns{};  // of a flat part: all that give this key, the one above first
};

/// Flat parts: turned by quarters and, where no lines are marked on their face, turned over (their holes go through).
/// Equal angles: turned end for end about the bisector of their legs. Flats as members, and tubes: turned about each of
/// their axes, square tubes by quarters too. Others: as they stand.
[[nodiscard]] Attitude attitude_of(const Part& part);

/// The part turned over within its own bounds about an axis along its x, or along its y, and the turn from its old
/// coordinates to the new ones.
struct TurnedFlat {
  Flat flat;
  Pose turn;
};
[[nodiscard]] TurnedFlat turned_over(const Flat& flat, bool about_y);

/// A member end for end without turning it; a flat part turned over, with its marks and arrows on the face that is up
/// again and its bends the other way. Of others no hand is told.
[[nodiscard]] Part mirror_image(Part part);

/// The same with the arrow that says FRONT the other way round: in a mirror that stands across it that is where the
/// front of the other box is.
[[nodiscard]] Part with_its_front_behind(Part part);

}  // namespace fitup::plan

#pragma once
// When two parts are one: a proper rotation carries one onto the other. Decided from their data.

#include <string>

#include "fitup/plan.h"

namespace fitup::plan {

/// A text that two parts share exactly if they are one, and the rotation (part to that common attitude).
struct Attitude {
  std::string key;
  Pose to_common;
};

/// Flat parts: turned by quarters and turned over (their holes go through). Equal angles: turned end for end
/// about the bisector of their legs. Flats as members, and tubes: turned about each of their axes, square tubes by
/// quarters too. Others: as they stand.
[[nodiscard]] Attitude attitude_of(const Part& part);

}  // namespace fitup::plan

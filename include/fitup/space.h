#pragma once
// The space that a plan's whole goes into: plain data, in the plan's coordinates and millimetres.

#include <string>
#include <vector>

#include "fitup/diagnostic.h"
#include "fitup/geometry.h"

namespace fitup {

/// The space that the whole goes into.
struct Space {
  /// What takes up some of it, by the box that it fills.
  struct Taken {
    Box3 box;
    std::string why;
    std::string key;
    Place place;
  };
  Box3 box;
  Vec3 within;  // how far off its measured sizes may be, either way
  double play_mm = 0;
  bool placed = false;  // else the whole was put on its floor, in its middle
  std::vector<Taken> taken{};
  Place place;
};

}  // namespace fitup

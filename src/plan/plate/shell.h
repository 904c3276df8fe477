#pragma once
// Sizes that all steps of the plate build share. Private to the plate build.

#include "plan/build.h"

namespace fitup::plan::plate {

struct Sheets {
  double t_mm = 0;       // of walls, floor and top
  double border_mm = 0;  // round openings; height of the floor's and the top's standing plates
  bool legs_up = false;  // the floor lies at the bottom, its standing plates stand on it
};
[[nodiscard]] Sheets sheets_of(const Build& build);

/// True if the plate in that face has one opening with a border round it.
[[nodiscard]] bool is_open(const Build& build, Face face);

/// Standing plates under the rails, from the front to the back or from left to right.
struct RibPlace {
  Box3 box;
  int along = 1;    // axis along which it runs
  Box3 under_rail;  // what of it reaches up to the rail
};
[[nodiscard]] std::vector<RibPlace> ribs_of(const Build& build, const Sheets& sheets);

}  // namespace fitup::plan::plate

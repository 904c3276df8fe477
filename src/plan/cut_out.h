#pragma once
// A rectangular plate with rectangles cut out of it, wherever they lie. Private to the plan.

#include <vector>

#include "fitup/geometry.h"

namespace fitup::plan {

struct CutOut {
  std::size_t pieces = 0;  // that would stay; the profile is the plate's if it is one
  Profile profile;
};

/// What stays of the rectangle from (0, 0) to `size` without the union of `cuts`: a cut that crosses the edge becomes
/// a notch, cuts that overlap become one window. The corners that a cutter must turn in are rounded by `radius_mm`, or
/// by what short edges leave room for.
[[nodiscard]] CutOut cut_out(Vec2 size, const std::vector<Box2>& cuts, double radius_mm);

/// The cuts with those strips between two of them, and between them and the edge, that are narrower than `web_mm`.
[[nodiscard]] std::vector<Box2> without_slivers(Vec2 size, std::vector<Box2> cuts, double web_mm);

}  // namespace fitup::plan

#pragma once
// Marks beside a view, each with a leader to a point on its part.

#include <string>
#include <vector>

#include "fitup/geometry.h"

namespace fitup::output {

/// A mark and where it stands; coordinates of the page, y down.
struct Balloon {
  std::string mark;
  Vec2 anchor;  // on the part
  Vec2 at;      // middle of the balloon
};

inline constexpr double balloon_height = 18;
[[nodiscard]] double balloon_width(const std::string& mark);

/// Puts the balloons into a column at the left and one at the right of the view, none on another, no leader across
/// another of its column. `view`: the page's box of the view; `column`: from the view to the middle of a column.
void place_balloons(std::vector<Balloon>& balloons, const Box2& view, double column);

}  // namespace fitup::output

#pragma once
// Dimensions as ISO 129-1 draws them: extension lines, a line with arrows, its value above or left of it.

#include <string>

#include "bench/type.h"

namespace fitup::bench {

/// A level dimension between two x, its line at `y`; extension lines come from `from_y`.
void dimension_across(Page& page, const Type& type, double from_x, double to_x, double y, double from_y,
                      const std::string& words);
/// An upright one between two y, read from the right.
void dimension_up(Page& page, const Type& type, double from_y, double to_y, double x, double from_x,
                  const std::string& words);

/// The largest scale of ISO 5455 in which so much fits into the room: "1:5" and 0.2. Past 1:100 the next that fits.
struct Scale {
  std::string words = "1:1";
  double factor = 1;
};
[[nodiscard]] Scale scale_for(Vec2 size, Vec2 room);

}  // namespace fitup::bench

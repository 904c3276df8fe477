#pragma once
// Dimensions as ISO 129-1 draws them: extension lines, a line with arrows, its value above or left of it.

#include <functional>
#include <string>
#include <vector>

#include "bench/type.h"

namespace fitup::bench {

/// A level dimension between two x, its line at `y`; extension lines come from `from_y`. Words that find no room
/// between the arrows stand beside them, at the right or with `at_left` at the left.
void dimension_across(Page& page, const Type& type, double from_x, double to_x, double y, double from_y,
                      const std::string& words, bool at_left = false);
/// An upright one between two y, read from the right; words that find no room stand above it or with `below` below.
void dimension_up(Page& page, const Type& type, double from_y, double to_y, double x, double from_x,
                  const std::string& words, bool below = false);

/// The largest scale of ISO 5455 in which so much fits into the room: "1:5" and 0.2. Past 1:100 the next that fits.
struct Scale {
  std::string words = "1:1";
  double factor = 1;
};
[[nodiscard]] Scale scale_for(Vec2 size, Vec2 room);
/// The largest that does; 1:10000 where none does.
[[nodiscard]] Scale scale_for(const std::function<bool(double)>& fits);

/// A coordinate from a datum, as ISO 129-1 superimposes running dimensions: one line from the datum on, an arrow and
/// the whole distance at each extension line. Words that would meet stand apart, their lines with a knee.
struct Running {
  double at_mm = 0;    // on the page, along the line
  double from_mm = 0;  // across it, where the extension line begins
  std::string words;
};
inline constexpr double running_pitch_mm = 3.6;
/// What the lines and words take, from the view's edge on.
[[nodiscard]] double running_depth_mm(const Type& type, const std::vector<Running>& all);
/// Level, below the view's edge at `edge_mm`, or above it; words within `low_mm` to `high_mm`.
void running_across(Page& page, const Type& type, std::vector<Running> all, double datum_mm, double edge_mm, bool above,
                    double low_mm, double high_mm);
/// Upright, at the left of the view's edge or at the right.
void running_up(Page& page, const Type& type, std::vector<Running> all, double datum_mm, double edge_mm, bool at_right,
                double low_mm, double high_mm);

}  // namespace fitup::bench

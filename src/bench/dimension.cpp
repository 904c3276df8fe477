// Dimensions and scales.
// Entry: dimension_across, dimension_up, scale_for.

#include "bench/dimension.h"

#include <fmt/format.h>

#include <array>
#include <cmath>

namespace fitup::bench {
namespace {

constexpr double arrow_mm = 3;
constexpr double arrow_half_mm = 0.5;  // an angle of about 20 degrees
constexpr double standoff_mm = 1;
constexpr double overshoot_mm = 2;

void arrow(Page& page, Vec2 tip, Vec2 back) {
  const Vec2 side{-back.y, back.x};
  Stroke head{{{tip}, {tip + arrow_mm * back + arrow_half_mm * side}, {tip + arrow_mm * back - arrow_half_mm * side}},
              true};
  head.filled = true;
  page.strokes.push_back(std::move(head));
}

/// Arrows inside, or outside where the line is too short for both.
void arrows(Page& page, Vec2 from, Vec2 to) {
  const double length = norm(to - from);
  const Vec2 along = (1 / std::max(length, 1e-9)) * (to - from);
  const double way = length > 3 * arrow_mm ? 1 : -1;
  if (way < 0) page.line(from - 2 * arrow_mm * along, to + 2 * arrow_mm * along);
  page.line(from, to);
  arrow(page, from, way * along);
  arrow(page, to, -way * along);
}

}  // namespace

void dimension_across(Page& page, const Type& type, double from_x, double to_x, double y, double from_y,
                      const std::string& words) {
  const double way = y > from_y ? 1 : -1;
  for (const double x : {from_x, to_x}) page.line({x, from_y + way * standoff_mm}, {x, y + way * overshoot_mm});
  arrows(page, {from_x, y}, {to_x, y});
  page.labels.push_back(type.label({0.5 * (from_x + to_x), y - 1}, words, text_mm, Anchor::middle));
}

void dimension_up(Page& page, const Type& type, double from_y, double to_y, double x, double from_x,
                  const std::string& words) {
  const double way = x > from_x ? 1 : -1;
  for (const double y : {from_y, to_y}) page.line({from_x + way * standoff_mm, y}, {x + way * overshoot_mm, y});
  arrows(page, {x, from_y}, {x, to_y});
  page.labels.push_back(type.label({x - 1, 0.5 * (from_y + to_y)}, words, text_mm, Anchor::middle, false, true));
}

Scale scale_for(Vec2 size, Vec2 room) {
  constexpr std::array<double, 3> steps{1, 2, 5};
  for (const double larger : {5.0, 2.0}) {
    if (larger * size.x <= room.x && larger * size.y <= room.y) return {fmt::format("{:g}:1", larger), larger};
  }
  for (double ten = 1;; ten *= 10) {
    for (const double step : steps) {
      const double factor = 1 / (step * ten);
      if (factor * size.x <= room.x && factor * size.y <= room.y) {
        return {fmt::format("1:{:g}", step * ten), factor};
      }
    }
  }
}

}  // namespace fitup::bench

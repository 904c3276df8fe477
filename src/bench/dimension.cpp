// Dimensions and scales.
// Entry: dimension_across, dimension_up, scale_for.

#include "bench/dimension.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

namespace fitup::bench {
namespace {

constexpr double arrow_mm = 3;
constexpr double arrow_half_mm = 0.5;  // an angle of about 20 degrees
constexpr double standoff_mm = 1;
constexpr double overshoot_mm = 2;
constexpr double line_at_mm = 4;   // of running dimensions, from the view's edge
constexpr double knee_end_mm = 8;  // from there on words
constexpr double origin_mm = 0.9;  // radius of the circle at their datum

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

/// An extension line along an axis, interrupted where words stand on its way (ISO 129-1 lets it be).
void extension(Page& page, Vec2 from, Vec2 to) {
  constexpr double around_mm = 0.4;
  const bool level = std::abs(to.y - from.y) < 1e-9;
  const double across = level ? from.y : from.x;
  const double low = level ? std::min(from.x, to.x) : std::min(from.y, to.y);
  const double high = level ? std::max(from.x, to.x) : std::max(from.y, to.y);
  std::vector<std::pair<double, double>> words;
  for (const Label& label : page.labels) {
    const Box2& b = label.box;
    const bool on_its_way = level ? b.low.y < across && across < b.high.y : b.low.x < across && across < b.high.x;
    if (!on_its_way) continue;
    words.emplace_back((level ? b.low.x : b.low.y) - around_mm, (level ? b.high.x : b.high.y) + around_mm);
  }
  std::sort(words.begin(), words.end());
  words.emplace_back(high, high);
  double at = low;
  for (const auto& [begin, end] : words) {
    const double until = std::min(begin, high);
    if (until > at)
      page.line(level ? Vec2{at, across} : Vec2{across, at}, level ? Vec2{until, across} : Vec2{across, until});
    at = std::max(at, end);
  }
}

/// Where words stand: in the order of what they name, as near to it as the pitch and the room let them.
std::vector<double> spread(std::vector<Running>& all, double low, double high) {
  std::sort(all.begin(), all.end(), [](const Running& a, const Running& b) { return a.at_mm < b.at_mm; });
  std::vector<double> places;
  for (const Running& one : all) {
    places.push_back(places.empty() ? std::max(low, one.at_mm) : std::max(one.at_mm, places.back() + running_pitch_mm));
  }
  // Half of what a crowd was pushed forwards it is taken back, as a whole.
  for (std::size_t from = 0; from < all.size();) {
    std::size_t to = from + 1;
    while (to < all.size() && places[to] - places[to - 1] < running_pitch_mm + 1e-9) ++to;
    const double before = from == 0 ? low : places[from - 1] + running_pitch_mm;
    const double back = std::min(0.5 * (places[to - 1] - all[to - 1].at_mm), std::max(0.0, places[from] - before));
    for (std::size_t i = from; i < to; ++i) places[i] -= back;
    from = to;
  }
  double most = high;
  for (std::size_t i = all.size(); i-- > 0;) {
    places[i] = std::min(places[i], most);
    most = places[i] - running_pitch_mm;
  }
  return places;
}

/// An arrow, or where the one before it is too near a dot.
void running_end(Page& page, const std::vector<Running>& all, std::size_t i, double datum, Vec2 tip, Vec2 back) {
  double room = std::abs(all[i].at_mm - datum);
  for (const std::size_t k : {i - 1, i + 1}) {
    if (k < all.size()) room = std::min(room, std::abs(all[i].at_mm - all[k].at_mm));
  }
  if (room > arrow_mm + origin_mm) {
    arrow(page, tip, back);
    return;
  }
  Stroke dot{Loop::circle(tip, 0.5).vertices, true};
  dot.filled = true;
  page.strokes.push_back(std::move(dot));
}

/// From the end of an extension line to the words, straight where they stand before it.
void knee(Page& page, Vec2 from, Vec2 to, Vec2 way) {
  page.line(from, from + 0.8 * way);
  page.line(from + 0.8 * way, to - 0.8 * way);
  page.line(to - 0.8 * way, to);
}

}  // namespace

void dimension_across(Page& page, const Type& type, double from_x, double to_x, double y, double from_y,
                      const std::string& words, bool at_left) {
  const double way = y > from_y ? 1 : -1;
  for (const double x : {from_x, to_x}) extension(page, {x, from_y + way * standoff_mm}, {x, y + way * overshoot_mm});
  arrows(page, {from_x, y}, {to_x, y});
  const double room = std::abs(to_x - from_x) - 1;
  if (type.width_mm(words, text_mm) > room) {
    const double past = 2 * arrow_mm + 1;
    page.labels.push_back(at_left ? type.label({std::min(from_x, to_x) - past, y + 1}, words, text_mm, Anchor::right)
                                  : type.label({std::max(from_x, to_x) + past, y + 1}, words, text_mm));
    return;
  }
  page.labels.push_back(type.label({0.5 * (from_x + to_x), y - 1}, words, text_mm, Anchor::middle));
}

void dimension_up(Page& page, const Type& type, double from_y, double to_y, double x, double from_x,
                  const std::string& words, bool below) {
  const double way = x > from_x ? 1 : -1;
  for (const double y : {from_y, to_y}) extension(page, {from_x + way * standoff_mm, y}, {x + way * overshoot_mm, y});
  arrows(page, {x, from_y}, {x, to_y});
  const double room = std::abs(to_y - from_y) - 1;
  if (type.width_mm(words, text_mm) > room) {
    const double past = 2 * arrow_mm + 1;
    page.labels.push_back(
        below ? type.label({x + 1, std::max(from_y, to_y) + past}, words, text_mm, Anchor::right, false, true)
              : type.label({x + 1, std::min(from_y, to_y) - past}, words, text_mm, Anchor::left, false, true));
    return;
  }
  page.labels.push_back(type.label({x - 1, 0.5 * (from_y + to_y)}, words, text_mm, Anchor::middle, false, true));
}

double running_depth_mm(const Type& type, const std::vector<Running>& all) {
  if (all.empty()) return 0;
  double widest = 0;
  for (const Running& one : all) widest = std::max(widest, type.width_mm(one.words, text_mm));
  return knee_end_mm + widest + 1.5;
}

void running_across(Page& page, const Type& type, std::vector<Running> all, double datum, double edge, bool above,
                    double low, double high) {
  if (all.empty()) return;
  const double way = above ? -1 : 1;
  const double line = edge + way * line_at_mm;
  const auto places = spread(all, low, high);
  page.line({datum, line}, {datum, edge + way * standoff_mm});
  page.circle({datum, line}, origin_mm);
  for (std::size_t i = 0; i < all.size(); ++i) {
    const double x = all[i].at_mm;
    page.line({x, all[i].from_mm + way * standoff_mm}, {x, line});
    knee(page, {x, line}, {places[i], edge + way * knee_end_mm}, {0, way});
    running_end(page, all, i, datum, {x, line}, {x > datum ? -1.0 : 1.0, 0});
    page.labels.push_back(type.label({places[i] + 0.35 * text_mm, edge + way * (knee_end_mm + 0.5)}, all[i].words,
                                     text_mm, above ? Anchor::left : Anchor::right, false, true));
  }
  page.line({std::min(datum, all.front().at_mm), line}, {std::max(datum, all.back().at_mm), line});
}

void running_up(Page& page, const Type& type, std::vector<Running> all, double datum, double edge, bool at_right,
                double low, double high) {
  if (all.empty()) return;
  const double way = at_right ? 1 : -1;
  const double line = edge + way * line_at_mm;
  const auto places = spread(all, low, high);
  page.line({line, datum}, {edge + way * standoff_mm, datum});
  page.circle({line, datum}, origin_mm);
  for (std::size_t i = 0; i < all.size(); ++i) {
    const double y = all[i].at_mm;
    page.line({all[i].from_mm + way * standoff_mm, y}, {line, y});
    knee(page, {line, y}, {edge + way * knee_end_mm, places[i]}, {way, 0});
    running_end(page, all, i, datum, {line, y}, {0, y > datum ? -1.0 : 1.0});
    page.labels.push_back(type.label({edge + way * (knee_end_mm + 0.5), places[i] + 0.35 * text_mm}, all[i].words,
                                     text_mm, at_right ? Anchor::left : Anchor::right));
  }
  page.line({line, std::min(datum, all.front().at_mm)}, {line, std::max(datum, all.back().at_mm)});
}

Scale scale_for(const std::function<bool(double)>& fits) {
  constexpr std::array<double, 3> steps{1, 2, 5};
  for (const double larger : {5.0, 2.0}) {
    if (fits(larger)) return {fmt::format("{:g}:1", larger), larger};
  }
  for (double ten = 1; ten < 1e4; ten *= 10) {
    for (const double step : steps) {
      if (fits(1 / (step * ten))) return {fmt::format("1:{:g}", step * ten), 1 / (step * ten)};
    }
  }
  return {"1:10000", 1e-4};
}

Scale scale_for(Vec2 size, Vec2 room) {
  return scale_for([&](double factor) { return factor * size.x <= room.x && factor * size.y <= room.y; });
}

}  // namespace fitup::bench

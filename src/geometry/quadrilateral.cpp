// A four-sided outline from its sides and diagonals.
// Entry: corners_from, closed, laid_on, carried.
#include "geometry/quadrilateral.h"

#include <cmath>

namespace fitup::geometry {

namespace {

/// The corner over the base from the origin to (base, 0), so far from its ends; on its upper side.
std::optional<Vec2> apex(double base, double from_begin, double from_end) {
  const double x = (from_begin * from_begin + base * base - from_end * from_end) / (2 * base);
  const double square = from_begin * from_begin - x * x;
  if (!(base > 0) || !(square > 0)) return std::nullopt;
  return Vec2{x, std::sqrt(square)};
}

constexpr std::size_t measures = 6;

std::array<double, measures> values(const FourSides& s) {
  return {s.across_low, s.across_high, s.up_low, s.up_high, *s.rising, *s.falling};
}

FourSides with_values(const std::array<double, measures>& v) { return {v[0], v[1], v[2], v[3], v[4], v[5]}; }

/// How much longer the falling diagonal is than the others make it.
std::optional<double> gap_of(const std::array<double, measures>& v) {
  const auto made = falling_from(with_values(v));
  if (!made) return std::nullopt;
  return v[5] - *made;
}

/// How the gap changes with each measure.
std::optional<std::array<double, measures>> slope_of(const std::array<double, measures>& v) {
  constexpr double step_mm = 1e-3;
  std::array<double, measures> slope{};
  for (std::size_t i = 0; i < measures; ++i) {
    auto less = v;
    auto more = v;
    less[i] -= step_mm;
    more[i] += step_mm;
    const auto low = gap_of(less);
    const auto high = gap_of(more);
    if (!low || !high) return std::nullopt;
    slope[i] = (*high - *low) / (2 * step_mm);
  }
  return slope;
}

}  // namespace

std::optional<Corners4> corners_from(const FourSides& s) {
  if (!s.rising) {
    // Turned over about the first axis the falling diagonal is the rising one.
    const auto over = corners_from({s.across_high, s.across_low, s.up_low, s.up_high, s.falling, std::nullopt});
    if (!over) return std::nullopt;
    const auto back = [](Vec2 p) { return Vec2{p.x, -p.y}; };
    return Corners4{back((*over)[3]), back((*over)[2]), back((*over)[1]), back((*over)[0])};
  }
  const auto below = apex(*s.rising, s.across_low, s.up_high);
  const auto above = apex(*s.rising, s.up_low, s.across_high);
  if (!below || !above) return std::nullopt;
  return Corners4{Vec2{0, 0}, Vec2{below->x, -below->y}, Vec2{*s.rising, 0}, *above};
}

std::optional<double> falling_from(const FourSides& sides) {
  const auto corners = corners_from(sides);
  if (!corners) return std::nullopt;
  return norm((*corners)[1] - (*corners)[3]);
}

// One condition among six observations: each is changed along the gap's slope, as survey nets are adjusted; the slope
// bends little over such changes, so few turns do.
std::optional<FourSides> closed(const FourSides& sides) {
  if (!sides.rising || !sides.falling) return corners_from(sides) ? std::optional(sides) : std::nullopt;
  const std::array<double, measures> measured = values(sides);
  std::array<double, measures> v = measured;
  for (int turn = 0; turn < 20; ++turn) {
    const auto gap = gap_of(v);
    const auto slope = slope_of(v);
    if (!gap || !slope) return std::nullopt;
    double off = *gap;
    double steep = 0;
    for (std::size_t i = 0; i < measures; ++i) {
      off += (*slope)[i] * (measured[i] - v[i]);
      steep += (*slope)[i] * (*slope)[i];
    }
    for (std::size_t i = 0; i < measures; ++i) v[i] = measured[i] - (*slope)[i] * off / steep;
  }
  return with_values(v);
}

Corners4 laid_on(const Corners4& corners, Vec2 size) {
  const Corners4 wanted{Vec2{0, 0}, Vec2{size.x, 0}, size, Vec2{0, size.y}};
  Vec2 middle;
  for (const Vec2 p : corners) middle = middle + 0.25 * p;
  // The turn that makes the sum of the squared distances least.
  double along = 0;
  double across = 0;
  for (std::size_t i = 0; i < 4; ++i) {
    const Vec2 from = corners[i] - middle;
    const Vec2 to = wanted[i] - 0.5 * size;
    along += dot(from, to);
    across += cross(from, to);
  }
  const double length = std::hypot(along, across);
  const Vec2 turn{along / length, across / length};
  Corners4 out;
  for (std::size_t i = 0; i < 4; ++i) {
    const Vec2 p = corners[i] - middle;
    out[i] = 0.5 * size + Vec2{turn.x * p.x - turn.y * p.y, turn.y * p.x + turn.x * p.y};
  }
  return out;
}

Vec2 carried(const Corners4& corners, Vec2 size, Vec2 point) {
  const double u = point.x / size.x;
  const double v = point.y / size.y;
  return (1 - u) * (1 - v) * corners[0] + u * (1 - v) * corners[1] + u * v * corners[2] + (1 - u) * v * corners[3];
}

}  // namespace fitup::geometry

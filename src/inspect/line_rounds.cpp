// Finds runs of short lines whose corners lie on one circle.
// Entry: line_rounds.
#include "inspect/line_rounds.h"

#include <algorithm>
#include <cmath>
#include <optional>

namespace fitup::inspect {

namespace {

constexpr std::size_t least_lines = 8;
constexpr std::size_t least_lines_of_circle = 12;
constexpr double largest_turn_rad = 31 * M_PI / 180;
constexpr double least_turn_rad = 0.2 * M_PI / 180;

std::optional<Circle> circle_through(Vec2 a, Vec2 b, Vec2 c) {
  const Vec2 u = b - a;
  const Vec2 v = c - a;
  const double d = 2 * cross(u, v);
  if (std::abs(d) < 1e-12 * (dot(u, u) + dot(v, v))) return std::nullopt;
  const Vec2 r{(v.y * dot(u, u) - u.y * dot(v, v)) / d, (u.x * dot(v, v) - v.x * dot(u, u)) / d};
  return Circle{a + r, norm(r)};
}

bool on(const Circle& circle, Vec2 p) {
  return std::abs(norm(p - circle.centre) - circle.radius) <= std::max(0.005, 0.002 * circle.radius);
}

double turn_at(Vec2 a, Vec2 b, Vec2 c) { return std::atan2(cross(b - a, c - b), dot(b - a, c - b)); }

bool bends(double turn, double like) {
  const double size = std::abs(turn);
  return size >= least_turn_rad && size <= largest_turn_rad && (like == 0 || turn * like > 0);
}

/// The run of lines that begins at `first`, if it is round.
LineRound run_from(const std::vector<Vertex>& corners, std::size_t first, std::size_t most) {
  const auto at = [&](std::size_t i) { return corners[i % corners.size()]; };
  LineRound run;
  double turn = 0;
  for (std::size_t n = 1; n <= most; ++n) {
    if (at(first + n - 1).bulge != 0) break;
    if (n >= 2) {
      const double here = turn_at(at(first + n - 2).at, at(first + n - 1).at, at(first + n).at);
      if (!bends(here, turn)) break;
      turn = here;
    }
    if (n == 3) {
      const auto circle = circle_through(at(first).at, at(first + 1).at, at(first + 2).at);
      if (!circle || !on(*circle, at(first + 3).at)) break;
      run.circle = *circle;
    }
    if (n > 3 && !on(run.circle, at(first + n).at)) break;
    run.lines = n;
  }
  return run;
}

}  // namespace

std::vector<LineRound> line_rounds(const Loop& loop) {
  const auto& corners = loop.vertices;
  std::vector<LineRound> rounds;
  for (std::size_t first = 0; first < corners.size();) {
    LineRound run = run_from(corners, first, corners.size());
    run.whole = run.lines == corners.size() && run.lines >= least_lines_of_circle;
    if (run.lines >= least_lines) rounds.push_back(run);
    if (run.whole) break;
    first += std::max<std::size_t>(1, run.lines >= least_lines ? run.lines : 1);
  }
  return rounds;
}

}  // namespace fitup::inspect

// Works out points along ellipses and splines.
// Entry: ellipse_of, spline_of.
#include "inspect/curves.h"

#include <algorithm>
#include <cmath>

namespace fitup::inspect {

namespace {

// Chords of an ellipse's quarter: within 2e-4 of its larger axis.
constexpr double steps_per_turn = 128;
constexpr int steps_per_span = 16;
constexpr int highest_degree = 15;
constexpr std::size_t most_points = 20'000;
constexpr double level = 1e-6;

struct Spline {
  int degree = 3;
  std::vector<double> knots;
  std::vector<double> weights;
  std::vector<Vec2> control;
  std::vector<Vec2> fit;
  bool flat = true;
  bool sound = true;
};

void take(const DxfTag& tag, Spline& spline, double& height) {
  const int code = tag.code;
  if (code != 10 && code != 20 && code != 30 && code != 11 && code != 21 && code != 31 && code != 40 && code != 41)
    return;
  const auto value = real_of(tag.value);
  if (!value) {
    spline.sound = false;
    return;
  }
  std::vector<Vec2>& points = code % 10 == 0 ? spline.control : spline.fit;
  if (code == 40) {
    spline.knots.push_back(*value);
  } else if (code == 41) {
    spline.weights.push_back(*value);
  } else if (code == 10 || code == 11) {
    points.push_back({*value, 0});
  } else if (points.empty()) {
    spline.sound = false;
  } else if (code == 20 || code == 21) {
    points.back().y = *value;
  } else {
    if (points.size() == 1) height = *value;
    spline.flat = spline.flat && std::abs(*value - height) <= level;
  }
}

/// De Boor's method on points with their weights; `span`: knots[span] <= t < knots[span + 1].
Vec2 at(const Spline& s, std::size_t span, double t) {
  const auto p = static_cast<std::size_t>(s.degree);
  std::vector<Vec3> d(p + 1);
  for (std::size_t j = 0; j <= p; ++j) {
    const std::size_t i = span - p + j;
    const double w = s.weights.empty() ? 1 : s.weights[i];
    d[j] = {w * s.control[i].x, w * s.control[i].y, w};
  }
  for (std::size_t r = 1; r <= p; ++r) {
    for (std::size_t j = p; j >= r; --j) {
      const double low = s.knots[span - p + j];
      const double width = s.knots[span + 1 + j - r] - low;
      const double a = width > 0 ? (t - low) / width : 0;
      d[j] = (1 - a) * d[j - 1] + a * d[j];
    }
  }
  return {d[p].x / d[p].z, d[p].y / d[p].z};
}

bool fits_together(const Spline& s) {
  const auto order = static_cast<std::size_t>(s.degree) + 1;
  const bool weights =
      s.weights.empty() || (s.weights.size() == s.control.size() &&
                            std::all_of(s.weights.begin(), s.weights.end(), [](double w) { return w > 0; }));
  return s.control.size() >= order && s.knots.size() == s.control.size() + order && weights &&
         std::is_sorted(s.knots.begin(), s.knots.end());
}

std::vector<Vec2> along(const Spline& s) {
  std::vector<Vec2> points;
  const auto p = static_cast<std::size_t>(s.degree);
  for (std::size_t span = p; span < s.control.size() && points.size() < most_points; ++span) {
    const double from = s.knots[span];
    const double to = s.knots[span + 1];
    if (to <= from) continue;
    for (int i = points.empty() ? 0 : 1; i <= steps_per_span; ++i) {
      points.push_back(at(s, span, from + (to - from) * i / steps_per_span));
    }
  }
  return points;
}

bool usable(const std::vector<Vec2>& points) {
  return points.size() >= 2 &&
         std::all_of(points.begin(), points.end(), [](Vec2 p) { return std::isfinite(p.x) && std::isfinite(p.y); });
}

}  // namespace

std::vector<Vec2> ellipse_points(Vec2 centre, Vec2 major, Vec2 minor, double from, double to) {
  const int steps = std::max(8, static_cast<int>(std::ceil((to - from) / (2 * M_PI) * steps_per_turn)));
  std::vector<Vec2> points;
  points.reserve(static_cast<std::size_t>(steps) + 1);
  for (int i = 0; i <= steps; ++i) {
    const double t = from + (to - from) * i / steps;
    points.push_back(centre + std::cos(t) * major + std::sin(t) * minor);
  }
  return points;
}

std::optional<Curve> ellipse_of(const DxfEntity& entity) {
  const auto centre = entity.point(10);
  const auto major = entity.point(11);
  const auto ratio = entity.real(40);
  if (!centre || !major || !ratio || *ratio <= 0 || *ratio > 1e6) return std::nullopt;
  constexpr double turn = 2 * M_PI;
  const double from = std::fmod(entity.real(41, 0), turn);
  double to = std::fmod(entity.real(42, turn), turn);
  if (to <= from + 1e-9) to += turn;
  const bool downward = entity.real(230, 1) < 0;
  const Vec2 m{major->x, major->y};
  const Vec2 n = (downward ? -*ratio : *ratio) * Vec2{-m.y, m.x};
  Curve curve{ellipse_points({centre->x, centre->y}, m, n, from, to), to - from > turn - 1e-6,
              std::abs(major->z) <= level};
  if (curve.closed) curve.points.pop_back();
  if (!usable(curve.points)) return std::nullopt;
  return curve;
}

std::optional<Curve> spline_of(const DxfEntity& entity) {
  Spline spline;
  double height = 0;
  for (const DxfTag& tag : entity.tags) take(tag, spline, height);
  spline.degree = entity.whole(71, 3);
  if (!spline.sound || spline.degree < 1 || spline.degree > highest_degree) return std::nullopt;
  Curve curve;
  curve.flat = spline.flat;
  if (spline.control.empty()) {
    curve.points = spline.fit;
  } else if (fits_together(spline)) {
    curve.points = along(spline);
  }
  if (!usable(curve.points)) return std::nullopt;
  const bool meets = norm(curve.points.back() - curve.points.front()) <= 1e-9 * (1 + norm(curve.points.front()));
  curve.closed = (entity.whole(70, 0) & 1) != 0 || meets;
  if (meets && curve.points.size() > 2) curve.points.pop_back();
  return curve;
}

}  // namespace fitup::inspect

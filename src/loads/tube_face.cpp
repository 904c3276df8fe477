// Yield lines of a tube's face round a boss.
// Entry: face_pull_n, face_moment_nmm, punched_n.
#include "loads/tube_face.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace fitup::loads {

namespace {

// Beyond that the side walls carry: what a narrower boss takes is less.
constexpr double widest = 0.85;
constexpr double least_kept = 0.1;  // of k_n, however much the tube is pressed

double ratio(const TubeFace& f) { return std::min(widest, f.boss_mm / f.width_mm); }

/// k_n of both tables times f_y t^2 and the pi / 4 of a round boss.
double unit(const TubeFace& f) {
  const double kept = std::clamp(1.3 - 0.4 * f.pressed / ratio(f), least_kept, 1.0);
  return std::numbers::pi / 4 * kept * f.yield_mpa * f.wall_mm * f.wall_mm;
}

}  // namespace

double face_pull_n(const TubeFace& f) {
  const double b = ratio(f);
  return unit(f) / (1 - b) * (2 * b + 4 * std::sqrt(1 - b));
}

double face_moment_nmm(const TubeFace& f) {
  const double b = ratio(f), d = b * f.width_mm;
  const double in_plane = d * (1 / (2 * b) + 2 / std::sqrt(1 - b) + b / (1 - b));
  const double out_of_plane = d * (1 + b) / (2 * (1 - b)) + std::sqrt(2 * f.width_mm * d * (1 + b) / (1 - b));
  return unit(f) * std::min(in_plane, out_of_plane);
}

double punched_n(const TubeFace& f) {
  const double d = f.boss_mm;
  const double beside = std::min(d, 10 * d * f.wall_mm / f.width_mm);
  return f.yield_mpa / std::sqrt(3.0) * f.wall_mm * std::numbers::pi / 4 * (2 * d + 2 * beside);
}

}  // namespace fitup::loads

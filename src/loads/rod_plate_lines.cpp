// Seams that run one way to the lines that they hold.
// Entry: held_lines.
#include "loads/rod_plate_lines.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "loads/seam_group.h"

namespace fitup::loads {

namespace {

constexpr double line_apart_mm = 10;  // seams nearer than this hold one line

}  // namespace

HeldLines held_lines(const std::vector<const Seam*>& seams, Vec3 z) {
  const auto way = [](const Seam& s) { return (1 / norm(s.to - s.from)) * (s.to - s.from); };
  const Vec3 along = way(*seams.front());
  std::vector<std::pair<double, double>> throats;  // how far across, and how much
  for (const Seam* seam : seams) {
    if (std::abs(dot(way(*seam), along)) < 0.999) return {};
    throats.emplace_back(dot(seam->from - seams.front()->from, cross(z, along)), throat_mm(*seam) * weld_mm(*seam));
  }
  std::sort(throats.begin(), throats.end());
  std::vector<std::pair<double, double>> held;  // moment and throat of each line
  for (std::size_t i = 0; i < throats.size(); ++i) {
    if (i == 0 || throats[i].first - throats[i - 1].first > line_apart_mm) held.emplace_back();
    held.back().first += throats[i].first * throats[i].second;
    held.back().second += throats[i].second;
  }
  HeldLines lines{0, held.front().second, along};
  for (std::size_t i = 1; i < held.size(); ++i) {
    const double apart = held[i].first / held[i].second - held[i - 1].first / held[i - 1].second;
    lines.span_mm = std::max(lines.span_mm, apart);
    lines.throat_mm2 = std::min(lines.throat_mm2, held[i].second);
  }
  return lines;
}

double length_along_mm(const Flat& flat, const Pose& pose, const HeldLines& lines) {
  const Vec2 size = flat.profile.bounds().size();
  return std::abs(dot(pose.x(), lines.along)) > 0.5 ? size.x : size.y;
}

}  // namespace fitup::loads

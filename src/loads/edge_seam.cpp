// Force and bending of a sheet's edge to the stress in the throats that hold it.
// Entry: edge_stress.
#include "loads/edge_seam.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "loads/amounts.h"

namespace fitup::loads {

namespace {

// Seams that are nearer to one line than this are on it.
constexpr double least_lever_mm = 0.5;

Vec3 way_of(const std::vector<WeldLine>& lines) {
  const auto longest = std::max_element(lines.begin(), lines.end(), [](const WeldLine& a, const WeldLine& b) {
    return norm(a.to - a.from) < norm(b.to - b.from);
  });
  const Vec3 path = longest->to - longest->from;
  return (1 / norm(path)) * path;
}

/// How far from each other the lines lie, across `way`.
double apart_mm(const std::vector<WeldLine>& lines, Vec3 way) {
  double most = 0;
  for (const WeldLine& a : lines) {
    for (const WeldLine& b : lines) {
      for (const Vec3 off : {b.from - a.from, b.to - a.from}) most = std::max(most, norm(cross(off, way)));
    }
  }
  return most;
}

}  // namespace

Vec3 middle_of(const std::vector<WeldLine>& lines) {
  Vec3 sum;
  double area = 0;
  for (const WeldLine& w : lines) {
    sum = sum + w.area_mm2() * (0.5 * (w.from + w.to));
    area += w.area_mm2();
  }
  return area > 0 ? (1 / area) * sum : Vec3{};
}

std::optional<EdgeStress> edge_stress(const std::vector<WeldLine>& lines, const EdgeBearing& bearing, Vec3 force,
                                      Vec3 moment_nmm) {
  const Vec3 middle = middle_of(lines);
  const auto by_force = throat_stress(lines, force, middle);
  if (!by_force) return std::nullopt;
  EdgeStress out;
  out.by_force = *by_force;
  const Vec3 way = way_of(lines);
  const double about = dot(moment_nmm, way);
  out.moment_nmm = std::abs(about);
  out.lever_mm = apart_mm(lines, way);
  if (out.lever_mm > least_lever_mm) {
    out.bent_mpa = throat_stress(lines, {}, middle, about * way)->mpa;
    if (out.bent_mpa > 0) out.arm_mm = out.moment_nmm / out.bent_mpa / by_force->area_mm2;
    return out;
  }
  double area = 0;
  for (const WeldLine& w : lines) area += w.area_mm2();
  const Vec3 couple = cross(bearing.reach, bearing.press);
  out.lever_mm = std::abs(dot(couple, way));
  if (out.lever_mm > least_lever_mm && about * dot(couple, way) >= 0) {
    out.lever = EdgeLever::bearing;
    out.bent_mpa = out.moment_nmm / out.lever_mm / area;
    return out;
  }
  out.lever = EdgeLever::throat;
  out.bent_mpa = 4 * out.moment_nmm / (area * area / by_force->length_mm);
  return out;
}

std::string words_of(const EdgeStress& edge) {
  std::string by;
  switch (edge.lever) {
    case EdgeLever::lines:
      by = fmt::format("seams {:.1f} mm apart", edge.lever_mm);
      if (edge.arm_mm > 0) by += fmt::format(", J / (A r) {:.2f} mm", edge.arm_mm);
      break;
    case EdgeLever::bearing: by = fmt::format("the seam and what bears {:.1f} mm beside it", edge.lever_mm); break;
    case EdgeLever::throat: by = "the throat alone, whose root opens"; break;
  }
  return fmt::format(
      "By what the sheet's edge does to its seam, shared over 60 mm of it at least: {} of its force, {} of what bends the "
      "sheet about the seam, held by {}",
      mpa_words(edge.by_force.mpa), mpa_words(edge.bent_mpa), by);
}

}  // namespace fitup::loads

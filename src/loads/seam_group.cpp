// Force and moment on a group of seams to the largest stress in a throat.
// Entry: throat_stress.
#include "loads/seam_group.h"

#include <fmt/format.h>

#include <Eigen/Dense>
#include <cmath>
#include <numbers>

namespace fitup::loads {

namespace {

constexpr int chords_of_a_ring = 24;
// Second moments smaller than this share of the largest are those of one straight line.
constexpr double on_one_line = 1e-9;

Eigen::Vector3d eigen(Vec3 v) { return {v.x, v.y, v.z}; }

/// Area, middle and second moments of the throats.
struct Lines {
  double area_mm2 = 0;
  double length_mm = 0;
  Vec3 middle;
  Eigen::Matrix3d polar = Eigen::Matrix3d::Zero();  // integral of (r.r - r r) dA about the middle
};

Lines properties(const std::vector<WeldLine>& lines) {
  Lines p;
  for (const WeldLine& w : lines) {
    const double area = w.area_mm2();
    p.area_mm2 += area;
    p.length_mm += w.weld_mm();
    p.middle = p.middle + area * (0.5 * (w.from + w.to));
  }
  p.middle = (1 / p.area_mm2) * p.middle;
  Eigen::Matrix3d second = Eigen::Matrix3d::Zero();
  for (const WeldLine& w : lines) {
    const double area = w.area_mm2();
    const Eigen::Vector3d m = eigen(0.5 * (w.from + w.to) - p.middle);
    const Eigen::Vector3d along = eigen(w.to - w.from);
    second += area * (m * m.transpose() + along * along.transpose() / 12);
  }
  p.polar = second.trace() * Eigen::Matrix3d::Identity() - second;
  return p;
}

}  // namespace

std::string words_of_elements(const std::vector<WeldLine>& lines) {
  double path_mm = 0, weld_mm = 0;
  for (const WeldLine& line : lines) {
    if (line.share >= 1) continue;
    path_mm += norm(line.to - line.from);
    weld_mm += line.weld_mm();
  }
  if (path_mm <= 0) return {};
  return fmt::format("; of its intermittent seams {:.0f} percent count, l / (l + e) of elements and gaps",
                     100 * weld_mm / path_mm);
}

double throat_mm(const Seam& seam) {
  return seam.kind == SeamKind::fillet ? seam.size_mm * std::sqrt(0.5) : seam.size_mm;
}

double share_of(const Seam& seam) {
  return seam.stitch ? seam.stitch->element_mm / (seam.stitch->element_mm + seam.stitch->gap_mm) : 1;
}

void add_lines(const Seam& seam, std::vector<WeldLine>& lines) {
  if (seam.ring_diameter_mm <= 0) {
    lines.push_back({seam.from, seam.to, throat_mm(seam), share_of(seam)});
    return;
  }
  const Vec3 n = seam.rises;
  const Vec3 u = std::abs(n.x) < 0.5 ? axis::x : axis::y;
  const Vec3 across = cross(n, u);
  const Vec3 first = (1 / norm(across)) * across;
  const Vec3 second = cross(n, first);
  const auto at = [&](int i) {
    const double a = 2 * std::numbers::pi * i / chords_of_a_ring;
    return seam.from + seam.ring_diameter_mm / 2 * (std::cos(a) * first + std::sin(a) * second);
  };
  for (int i = 0; i < chords_of_a_ring; ++i) lines.push_back({at(i), at(i + 1), throat_mm(seam)});
}

std::optional<GroupStress> throat_stress(const std::vector<WeldLine>& lines, Vec3 force, Vec3 force_at,
                                         Vec3 moment_nmm) {
  if (lines.empty()) return std::nullopt;
  const Lines p = properties(lines);
  if (p.area_mm2 <= 0) return std::nullopt;
  const Eigen::Vector3d moment = eigen(moment_nmm + cross(force_at - p.middle, force));
  const Eigen::SelfAdjointEigenSolver<Eigen::Matrix3d> axes(p.polar);
  Eigen::Vector3d turn = Eigen::Vector3d::Zero();
  GroupStress out;
  out.length_mm = p.length_mm;
  out.area_mm2 = p.area_mm2;
  out.of_force = (1 / p.area_mm2) * force;
  out.polar_mm4 = {p.polar(0, 0), p.polar(1, 1), p.polar(2, 2)};
  out.products_mm4 = {p.polar(1, 2), p.polar(2, 0), p.polar(0, 1)};
  for (int i = 0; i < 3; ++i) {
    const Eigen::Vector3d axis = axes.eigenvectors().col(i);
    const double about = axis.dot(moment);
    if (axes.eigenvalues()(i) <= on_one_line * axes.eigenvalues()(2)) {
      out.not_taken_nmm = std::abs(about);
      continue;
    }
    turn += about / axes.eigenvalues()(i) * axis;
  }
  for (const WeldLine& w : lines) {
    for (const Vec3 end : {w.from, w.to}) {
      const Eigen::Vector3d turned = turn.cross(eigen(end - p.middle));
      const Eigen::Vector3d stress = eigen(force) / p.area_mm2 + turned;
      if (stress.norm() <= out.mpa) continue;
      out.mpa = stress.norm();
      out.at = end;
      out.of_moment = {turned.x(), turned.y(), turned.z()};
      out.reach_mm = end - p.middle;
    }
  }
  return out;
}

}  // namespace fitup::loads

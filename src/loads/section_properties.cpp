// Moments of a section's outline by Green's theorem; arcs as fine chords.
// Entry: properties_of, stress_mpa.
#include "loads/section_properties.h"

#include <algorithm>
#include <cmath>

namespace fitup::loads {

namespace {

constexpr int chords_of_an_arc = 48;

std::vector<Vec2> corners_of(const Loop& loop) {
  std::vector<Vec2> corners;
  for (const Edge& edge : loop.edges()) {
    corners.push_back(edge.from);
    if (edge.straight()) continue;
    const Arc arc = edge.arc();
    for (int i = 1; i < chords_of_an_arc; ++i) {
      const double a = arc.start + arc.sweep * i / chords_of_an_arc;
      corners.push_back(arc.centre + arc.radius * Vec2{std::cos(a), std::sin(a)});
    }
  }
  return corners;
}

struct Moments {
  double area = 0;
  double sx = 0, sy = 0;          // integrals of x and y
  double xx = 0, yy = 0, xy = 0;  // of x squared, y squared, x y

  void add(const std::vector<Vec2>& corners, double sign) {
    for (std::size_t i = 0; i < corners.size(); ++i) {
      const Vec2 p = corners[i];
      const Vec2 q = corners[(i + 1) % corners.size()];
      const double c = sign * cross(p, q);
      area += c / 2;
      sx += c * (p.x + q.x) / 6;
      sy += c * (p.y + q.y) / 6;
      xx += c * (p.x * p.x + p.x * q.x + q.x * q.x) / 12;
      yy += c * (p.y * p.y + p.y * q.y + q.y * q.y) / 12;
      xy += c * (p.x * q.y + 2 * p.x * p.y + 2 * q.x * q.y + q.x * p.y) / 24;
    }
  }
};

constexpr double pi = 3.14159265358979323846;

/// Thin rectangle: b t^3 / 3, less what its ends lack.
double rectangle_j(double b, double t) {
  if (b < t) std::swap(b, t);
  return b * t * t * t * (1.0 / 3 - 0.21 * t / b * (1 - std::pow(t / b, 4) / 12));
}

/// Torsion and shear of open legs, and of a closed tube after Bredt.
void add_torsion(SectionProperties& p, const Section& s) {
  const double t = s.thickness_mm;
  p.shear_centre = p.centroid;
  switch (s.shape) {
    case SectionShape::angle:
      p.j_mm4 = (s.leg_a_mm + s.leg_b_mm - t) * t * t * t / 3;
      p.torsion_mm3 = p.j_mm4 / t;
      p.shear_centre = {t / 2, t / 2};
      p.shear_x_mm2 = s.leg_a_mm * t / 1.5;
      p.shear_y_mm2 = s.leg_b_mm * t / 1.5;
      return;
    case SectionShape::flat:
      p.j_mm4 = rectangle_j(s.leg_a_mm, t);
      p.torsion_mm3 = p.j_mm4 / std::min(t, s.leg_a_mm);
      p.shear_x_mm2 = p.shear_y_mm2 = p.area_mm2 / 1.5;
      return;
    case SectionShape::tube: {
      const double r = std::max(0.0, s.corner_radius_mm - t / 2);
      const double b = s.leg_a_mm - t;
      const double h = s.leg_b_mm - t;
      const double within = b * h - (4 - pi) * r * r;
      const double round = 2 * (b + h) - (8 - 2 * pi) * r;
      p.j_mm4 = 4 * within * within * t / round;
      p.torsion_mm3 = 2 * within * t;
      p.shear_x_mm2 = 2 * s.leg_a_mm * t / 1.5;
      p.shear_y_mm2 = 2 * s.leg_b_mm * t / 1.5;
      return;
    }
  }
}

}  // namespace

SectionProperties properties_of(const Section& section) {
  const Profile profile = profile_of(section);
  Moments m;
  const std::vector<Vec2> outer = corners_of(profile.outer);
  m.add(outer, 1);
  for (const Loop& hole : profile.holes) m.add(corners_of(hole), -1);
  SectionProperties p;
  p.area_mm2 = m.area;
  p.centroid = {m.sx / m.area, m.sy / m.area};
  p.ix_mm4 = m.yy - m.area * p.centroid.y * p.centroid.y;
  p.iy_mm4 = m.xx - m.area * p.centroid.x * p.centroid.x;
  p.ixy_mm4 = m.xy - m.area * p.centroid.x * p.centroid.y;
  const double mean = (p.ix_mm4 + p.iy_mm4) / 2;
  const double turn = std::hypot((p.ix_mm4 - p.iy_mm4) / 2, p.ixy_mm4);
  p.iu_mm4 = mean + turn;
  p.iv_mm4 = mean - turn;
  for (const Vec2 corner : outer) p.outline.push_back(corner - p.centroid);
  add_torsion(p, section);
  return p;
}

BeamSection SectionProperties::beam() const {
  return {area_mm2, ix_mm4, iy_mm4, ixy_mm4, j_mm4, shear_centre - centroid};
}

// A moment about z (the section's y) of a stress s: M_z = - integral of s y, M_y = integral of s z, with y and z here
// the section's x and y.
BeamStress stress_of(const SectionProperties& p, const InnerForces& inner) {
  const double det = p.ix_mm4 * p.iy_mm4 - p.ixy_mm4 * p.ixy_mm4;
  const double per_x = (-inner.moment.z * p.ix_mm4 - inner.moment.y * p.ixy_mm4) / det;
  const double per_y = (inner.moment.y * p.iy_mm4 + inner.moment.z * p.ixy_mm4) / det;
  BeamStress out;
  for (const Vec2 at : p.outline) {
    const double direct = inner.force.x / p.area_mm2 + per_x * at.x + per_y * at.y;
    if (std::abs(direct) <= std::abs(out.direct_mpa)) continue;
    out.direct_mpa = direct;
    out.corner = at;
  }
  out.shear_mpa = std::abs(inner.moment.x) / p.torsion_mm3 + std::abs(inner.force.y) / p.shear_x_mm2 +
                  std::abs(inner.force.z) / p.shear_y_mm2;
  return out;
}

double BeamStress::mpa() const { return std::sqrt(direct_mpa * direct_mpa + 3 * shear_mpa * shear_mpa); }

double stress_mpa(const SectionProperties& p, const InnerForces& inner) { return stress_of(p, inner).mpa(); }

}  // namespace fitup::loads

// The exact outline of a section, with root and toe radii as arcs.
// Entry: profile_of().
#include <algorithm>
#include <cmath>

#include "fitup/tables.h"

namespace fitup {
namespace {

// tan(90 degrees / 4): a quarter circle.
const double quarter_bulge = std::sqrt(2.0) - 1;

// The toe is a quarter circle between the leg's end face and its inner face. Where it takes the whole
// thickness the end face is gone: the arc begins at the outer face, and no edge of length zero is left.
void add_toe_of_leg_a(std::vector<Vertex>& vertices, double leg, double thickness, double toe) {
  if (toe < thickness) {
    vertices.push_back({{leg, 0}});
  }
  if (toe > 0) {
    vertices.push_back({{leg, thickness - toe}, quarter_bulge});
  }
  vertices.push_back({{leg - toe, thickness}});
}

void add_toe_of_leg_b(std::vector<Vertex>& vertices, double leg, double thickness, double toe) {
  vertices.push_back({{thickness, leg - toe}, toe > 0 ? quarter_bulge : 0.0});
  if (toe > 0) {
    vertices.push_back({{thickness - toe, leg}});
  }
  if (toe < thickness) {
    vertices.push_back({{0, leg}});
  }
}

Loop angle_outline(const Section& s) {
  const double t = s.thickness_mm;
  const double toe = std::min(s.toe_radius_mm, t);
  const double root = s.root_radius_mm;
  std::vector<Vertex> vertices{{{0, 0}}};
  add_toe_of_leg_a(vertices, s.leg_a_mm, t, toe);
  vertices.push_back({{t + root, t}, root > 0 ? -quarter_bulge : 0.0});
  if (root > 0) {
    vertices.push_back({{t, t + root}});
  }
  add_toe_of_leg_b(vertices, s.leg_b_mm, t, toe);
  return {std::move(vertices)};
}

}  // namespace

Profile profile_of(const Section& section) {
  if (section.shape == SectionShape::angle) {
    return {angle_outline(section), {}};
  }
  if (section.shape == SectionShape::tube) {
    const double t = section.thickness_mm;
    const double r = section.corner_radius_mm;
    const Vec2 size{section.leg_a_mm, section.leg_b_mm};
    return {Loop::rounded_rectangle({0, 0}, size, r),
            {Loop::rounded_rectangle({t, t}, size - Vec2{t, t}, std::max(0.0, r - t))}};
  }
  return {Loop::rectangle({0, 0}, {section.leg_a_mm, section.thickness_mm}), {}};
}

double tables::steel_mass_kg_per_m(const Section& section) {
  constexpr double steel_kg_per_mm2_of_a_metre = 0.00785;  // 7850 kg/m3
  return profile_of(section).area_mm2() * steel_kg_per_mm2_of_a_metre;
}

}  // namespace fitup

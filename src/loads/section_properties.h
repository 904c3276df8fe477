#pragma once
// What a section gives to a beam: area, second moments, torsion, shear centre, from its exact outline.

#include <vector>

#include "fitup/tables.h"
#include "loads/frame_solver.h"

namespace fitup::loads {

/// In the section's own x and y, about axes through the centroid. Angle: legs along +x and +y.
struct SectionProperties {
  Vec2 centroid;  // from the section's origin
  double area_mm2 = 0;
  double ix_mm4 = 0;   // integral of y squared
  double iy_mm4 = 0;   // integral of x squared
  double ixy_mm4 = 0;  // integral of x y
  double iu_mm4 = 0;   // the largest
  double iv_mm4 = 0;   // the least
  double j_mm4 = 0;
  Vec2 shear_centre;       // from the section's origin: where the legs' middle lines cross
  double torsion_mm3 = 0;  // largest shear stress of St. Venant torsion: moment over this
  double shear_x_mm2 = 0;  // area that carries a shear force along x, y
  double shear_y_mm2 = 0;
  std::vector<Vec2> outline;  // corners from the centroid, where bending stress may be largest

  /// As a beam whose local y and z are the section's x and y.
  [[nodiscard]] BeamSection beam() const;
  /// Of bending about the section's x axis without restraint to either side: ix - ixy^2 / iy.
  [[nodiscard]] double free_ix_mm4() const { return ix_mm4 - ixy_mm4 * ixy_mm4 / iy_mm4; }
};

[[nodiscard]] SectionProperties properties_of(const Section& section);

/// Where a beam's stress is largest, N and N mm, in the axes of `beam()`: bending and axial by the outline's corners,
/// with torsion and shear after von Mises.
struct BeamStress {
  double direct_mpa = 0;
  double shear_mpa = 0;
  Vec2 corner;  // of the outline, from the centroid
  [[nodiscard]] double mpa() const;
};
[[nodiscard]] BeamStress stress_of(const SectionProperties& section, const InnerForces& inner);
[[nodiscard]] double stress_mpa(const SectionProperties& section, const InnerForces& inner);

}  // namespace fitup::loads

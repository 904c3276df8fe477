#pragma once
// Rectangular plates under an even pressure beyond small deflections. Newtons, millimetres, megapascals.

#include "loads/formulas.h"

namespace fitup::loads {

/// Of plates on supports that do not yield up or down: whether their edges may move towards each other (screwed on
/// through clearance holes) or not (welded all round).
enum class EdgesInPlane { free, fixed };

struct PlateState {
  double deflection_mm = 0;
  double stress_mpa = 0;
  bool large = false;  // more than half the thickness: bending and membrane share the pressure
};

/// Up to half the thickness Roark's coefficients of simply supported edges. Beyond, the bending part by these, and the
/// membrane of one half wave (von Karman, Galerkin's method; the coefficients that Levy's solutions confirm, NACA
/// report 737): q = bending w + membrane w^3. Poisson's ratio 0.3. b the shorter side.
[[nodiscard]] PlateState supported_plate(double a_mm, double b_mm, double thickness_mm, double pressure_mpa,
                                         double e_mpa, EdgesInPlane edges);

/// q / w^3 of that membrane.
[[nodiscard]] double membrane_stiffness(double a_mm, double b_mm, double thickness_mm, double e_mpa, EdgesInPlane edges,
                                        double poisson = 0.3);

}  // namespace fitup::loads

#pragma once
// Rectangular plates under an even pressure, and strips between two lines, beyond small deflections. Newtons, millimetres, megapascals.

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

/// Sheet that is held along two lines and bends between them as a cylinder. Where the lines come nearer to each other
/// bending alone carries it, however far it gives; where they stay its stretch carries too. The truth is between the two,
/// and so is the stress: what bends it is in proportion to how far it gives, w, what stretches it to (F - k w) / w, and a w + b
/// / w is largest at an end of a range.
struct HeldStrip {
  double deflection_mm = 0;
  double bent_share = 1;  // of the bending where the lines come nearer
  double membrane_mpa = 0;
};
/// Between lines that stay, at which it turns as it likes. One half wave, Galerkin: w + 3 w^3 / t^2 is what it would give
/// by bending alone, the stretch pi^2 w^2 / 4 l^2.
[[nodiscard]] HeldStrip strip_between_lines_that_stay(double bent_mm, double span_mm, double thickness_mm, double e_mpa);

}  // namespace fitup::loads

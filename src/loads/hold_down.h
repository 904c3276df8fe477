#pragma once
// Check "hold-down": what holds the items in the box and the box on its feet, when it is thrown to a side.

#include <vector>

#include "fitup/findings.h"
#include "fitup/load_rules.h"
#include "fitup/weight.h"

namespace fitup::loads {

/// A bolt's tension and shear of one case, N.
struct BoltForce {
  double tension_n = 0;
  double shear_n = 0;
};

/// A rigid body on bolts of one size, square through one plane whose normal points away from what holds: a force at
/// `force_at` is shared elastically about the bolts' middle. Pressure between the plates is left out: bolts push too.
/// Friction is zero.
[[nodiscard]] std::vector<BoltForce> bolt_forces(const std::vector<Vec3>& bolts, Vec3 normal, Vec3 force,
                                                 Vec3 force_at);

/// The same as the force that the body puts on each bolt.
[[nodiscard]] std::vector<Vec3> forces_on_bolts(const std::vector<Vec3>& bolts, Vec3 normal, Vec3 force, Vec3 force_at);

/// EN 1993-1-8, table 3.4 (from memory): tension 0.9 fub As, shear alpha_v fub As, threads in the shear plane, both
/// over 1.25; together Fv / FvRd + Ft / (1.4 FtRd), and Ft / FtRd alone. At most 1.
[[nodiscard]] double bolt_utilisation(BoltForce force, double stress_area_mm2, const BoltClass& strength);

[[nodiscard]] std::vector<Finding> check_hold_down(const Plan& plan, const Weights& weights, const LoadRules& rules);

/// A rod whose size says its class counts with that.
[[nodiscard]] BoltClass class_of(const Part& rod, const BoltClass& otherwise);

}  // namespace fitup::loads

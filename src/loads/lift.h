#pragma once
// Checks "lift" (eyes and slings) and "balance" (centre of mass and tilt): the whole as a rigid load on its lift
// points, with legs of equal length from one hook.

#include <vector>

#include "fitup/findings.h"
#include "fitup/load_rules.h"
#include "fitup/weight.h"

namespace fitup::loads {

/// What each lift point takes, the worst of the whole as it is lifted, loaded, and of the empty one.
struct LiftLoads {
  std::vector<double> vertical_kg;  // of each point, at rest: its worst share
  double within_kg = 0;             // how far the worst may be off
  std::size_t worst = 0;            // index of the point that takes the most
  LoadState state = LoadState::as_lifted;  // in which it does
  double dynamic = 1;
  double angle_deg = 0;
  [[nodiscard]] double worst_kg() const { return dynamic * vertical_kg[worst]; }
  /// Along the sling.
  [[nodiscard]] double tension_kg() const;
};
/// Precondition: there are lift points.
[[nodiscard]] LiftLoads lift_loads(const Plan& plan, const Weights& weights, const LoadRules& rules);

/// How far the hook stands above the lift points: legs of equal length at the stated angle, of at least 1 degree.
[[nodiscard]] double hook_height_mm(const Plan& plan, const LoadRules& rules);

[[nodiscard]] std::vector<Finding> check_lift(const Plan& plan, const Weights& weights, const LoadRules& rules);
[[nodiscard]] std::vector<Finding> check_balance(const Plan& plan, const Weights& weights, const LoadRules& rules);

/// "BOS01 lift boss 1".
[[nodiscard]] std::string label_of(const Plan& plan, InstanceId id);

}  // namespace fitup::loads

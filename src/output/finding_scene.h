#pragma once
// What the picture of a finding shows: which bodies, from where, how near, and the way and amount that are marked.

#include <optional>
#include <set>
#include <string>
#include <vector>

#include "checks/placed.h"
#include "fitup/findings.h"
#include "fitup/plan.h"
#include "output/section.h"

namespace fitup::output {

/// The plan's instances where they stand.
class PlacedPlan {
 public:
  explicit PlacedPlan(const Plan& plan);
  [[nodiscard]] const Plan& plan() const { return plan_; }
  [[nodiscard]] const checks::PlacedBody& body(InstanceId id) const { return bodies_[id]; }
  [[nodiscard]] const Box3& box(InstanceId id) const { return bodies_[id].outer.box; }
  [[nodiscard]] std::string label(InstanceId id) const;
  /// Those that the finding names, in its order.
  [[nodiscard]] std::vector<InstanceId> named_by(const Finding& finding) const;

 private:
  const Plan& plan_;
  std::vector<checks::PlacedBody> bodies_;
};

/// One or two parts stand out, "A" and "B"; others are of the same cause.
struct FindingScene {
  InstanceId a = 0;
  std::optional<InstanceId> b;
  std::vector<InstanceId> others;
  Vec3 at;                  // what is marked
  Look look;                // across which the parts are cut through `at`
  Vec3 a_moved;             // `a` is drawn so far from its place
  std::optional<Vec3> way;  // along which `a` comes
  /// The amount as a distance on paper, where it can be shown as one: along `across`, from low to high.
  int across = 0;
  std::optional<geometry::Interval> amount;
  double hole_mm = 0;  // where it is a hole and what goes through it
  double fastener_mm = 0;
  double near_mm = 0;  // half of what the near view spans
  Box2 around;         // what the wider view spans
};

/// Nothing where the finding names no instance of the plan.
[[nodiscard]] std::optional<FindingScene> scene_of(const Finding& finding, const PlacedPlan& placed);

}  // namespace fitup::output

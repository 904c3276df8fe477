#pragma once
// A plan whose parts are made as planned, while items, rods and what is on these have other sizes or stand elsewhere.

#include <functional>
#include <optional>
#include <set>
#include <string>
#include <utility>
#include <vector>

#include "checks/scene.h"
#include "fitup/findings.h"
#include "fitup/plan.h"

namespace fitup::remedies {

/// Pairs of things that overlap in the plan as measured and not as planned, farthest moved first.
using Broken = std::vector<std::pair<checks::Thing, checks::Thing>>;

/// What every question about one plan shares: its bodies as planned, and which of its parts come with an item.
class AsPlanned {
 public:
  explicit AsPlanned(const Plan& plan);
  AsPlanned(const AsPlanned&) = delete;
  AsPlanned& operator=(const AsPlanned&) = delete;

  /// All that is made as it is planned; items, rods and what is on these from `other`, their row about the middle that
  /// it has. Nothing where `other` lacks one of these.
  [[nodiscard]] std::optional<Plan> with_items_of(const Plan& other) const;

  /// Only pairs of which one has moved against the other, or has another shape, are asked, by the exact rules.
  [[nodiscard]] Broken broken(const Plan& measured, const std::function<bool()>& stop) const;

  /// The worst finding of the check "overlap" about these pairs, of which those that moved farthest are measured.
  [[nodiscard]] std::optional<Finding> worst(const Plan& measured, const Broken& pairs) const;

  /// A failure of `insertion` or `clearance` of a plan as measured; of a check that fails as planned nothing.
  [[nodiscard]] std::optional<Finding> fails_otherwise(const Plan& measured, const std::function<bool()>& stop) const;

 private:
  struct Moved;
  [[nodiscard]] std::vector<Moved> moved(const Plan& measured) const;
  [[nodiscard]] bool is_asked(checks::Thing a, checks::Thing b) const;
  [[nodiscard]] std::set<std::string> names_of(checks::Thing thing) const;
  [[nodiscard]] Role role_of(InstanceId id) const { return plan_.parts[plan_.instances[id].part].role; }
  [[nodiscard]] bool comes_with_an_item(InstanceId id) const;

  const Plan& plan_;
  Plan to_place_;  // without welds whose beads lie where they are clear
  checks::Scene scene_;
  std::set<std::pair<InstanceId, InstanceId>> gives_way_;  // stated to meet: pressed or drawn together
  std::set<InstanceId> on_rods_;                           // nuts and washers
  std::set<std::string> fail_as_planned_;                  // checks
};

}  // namespace fitup::remedies

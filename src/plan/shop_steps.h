#pragma once
// What is offered to be typed, on the steps that a shop measures in. Private to the plan.

#include <string>

#include "plan/build.h"
#include "plan/rule_steps.h"

namespace fitup::plan {

/// A distance to go at least: of a spec in inches the next sixteenth.
[[nodiscard]] inline std::string at_least_on_steps(const Build& build, double mm) {
  return build.at_least(build.spec.units == UnitSystem::in_lb ? inch_steps.place_up(mm) : mm);
}

}  // namespace fitup::plan

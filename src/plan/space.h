#pragma once
// The space that the whole goes into, in the plan's coordinates.

#include <optional>

#include "fitup/plan.h"
#include "fitup/spec.h"

namespace fitup::plan {

/// Where the finished plan stands in the space: by space.at, else on its floor and in its middle. None where no space
/// is stated.
[[nodiscard]] std::optional<Space> space_round(const Spec& spec, const Plan& plan);

}  // namespace fitup::plan

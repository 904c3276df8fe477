#pragma once
// Which parts the spec wants to be kept apart.

#include <vector>

#include "fitup/plan.h"
#include "fitup/spec.h"

namespace fitup::plan {

/// The groups of each [[keep_apart]] by the instances of the finished plan.
[[nodiscard]] std::vector<KeptApart> kept_apart(const Spec& spec, const Plan& plan);

}  // namespace fitup::plan

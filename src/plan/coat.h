#pragma once
// The coat of the welded steel: what it takes of holes and gaps. Private to the plan.

#include "fitup/plan.h"
#include "plan/build.h"

namespace fitup::plan {

/// A hole that something goes through later is this much wider than it would be bare: the coat of both its sides,
/// rounded up to the next tenth, so that a drill is there. Nothing where there is no coat.
[[nodiscard]] double coat_in_hole_mm(const Spec& spec);

/// With its mass on all that is made of the plan.
[[nodiscard]] std::optional<Coat> coat_of(const Spec& spec, const Plan& plan);

/// States what coats leave of gaps between parts that both are coated (Draft::fits).
void add_coat_fits(Build& build);

}  // namespace fitup::plan

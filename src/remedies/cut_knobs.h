#pragma once
// Values of a spec that may bring a flat part within what the shop cuts.

#include <vector>

#include "remedies/knobs.h"

namespace fitup::remedies {

[[nodiscard]] std::vector<Knob> cut_knobs(const Concerned& what, const Spec& spec);

}  // namespace fitup::remedies

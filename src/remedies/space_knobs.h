#pragma once
// Where the whole stands in a space whose place is given.

#include <vector>

#include "remedies/knobs.h"

namespace fitup::remedies {

/// The three numbers of space.at, where it is given; before them, of what is too near to the floor, the one at which
/// the lowest part stands on it: between there and space.play above it nothing else passes.
[[nodiscard]] std::vector<Knob> space_places(const Concerned& what, const Spec& spec);

}  // namespace fitup::remedies

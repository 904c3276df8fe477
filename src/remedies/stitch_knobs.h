#pragma once
// Values of a spec that make the elements of intermittent seams count, or bring them nearer to each other.

#include <vector>

#include "remedies/knobs.h"

namespace fitup::remedies {

/// Where the finding is about the elements that a place of the spec asks for: their length, then the gap between them.
/// Where a welded plate shuts something in: such elements. Nothing of any other finding.
[[nodiscard]] std::vector<Knob> stitch_knobs(const Concerned& what, const Spec& spec);

}  // namespace fitup::remedies

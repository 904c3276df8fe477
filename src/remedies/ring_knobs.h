#pragma once
// Values of a spec that make the ring of angle under a box of plates stronger.

#include <string>
#include <vector>

#include "remedies/knobs.h"

namespace fitup::remedies {

/// Corners whose seams lie around the section in place of butted ones, where seams are the matter; then angles of the
/// table with no smaller leg and no thinner, the lightest first. None of a box without a ring.
[[nodiscard]] std::vector<Knob> ring_knobs(const Concerned& what, const BoxSpec& box, const Spec& spec);

}  // namespace fitup::remedies

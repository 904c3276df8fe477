#pragma once
// Threads of eyes, and where lift points stand, as ladders.

#include <vector>

#include "remedies/knobs.h"

namespace fitup::remedies {

/// `lifting.thread`, eyes of its family by their ratings; none where nothing is lifted.
[[nodiscard]] std::vector<Knob> eye_sizes(const Spec& spec);

/// Both numbers of `lifting.at` of each point that the finding is about.
[[nodiscard]] std::vector<Knob> boss_places(const Concerned& what, const Spec& spec);

}  // namespace fitup::remedies

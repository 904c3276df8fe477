#pragma once
// How far covers' flanges reach where the spec does not say it and the usual depth leaves a row beside them no room.
// Private to the plan.

#include <vector>

#include "fitup/spec.h"

namespace fitup::plan {

/// The box with flanges less deep, each by a step of its screws more than the one before, or of the next smaller angle:
/// those whose depth or section the spec does not state. Empty where there is none.
[[nodiscard]] std::vector<BoxSpec> with_shallower_flanges(const BoxSpec& box);

/// Whether it was said of a cover that flanges leave its rows no room.
[[nodiscard]] bool leaves_no_room(const Diagnostics& said);
/// Whether that is no longer said, and less is than before.
[[nodiscard]] bool leaves_room(const Diagnostics& said, const Diagnostics& before);

}  // namespace fitup::plan

#pragma once
// The frame's outer size where the spec says it: what remains is shared by the clearances that are left out. Private to
// the plan.

#include <optional>

#include "plan/build.h"

namespace fitup::plan {

/// The box with its clearances worked out so that its frame is as large as `outside` says; the same box where it says
/// nothing. None if that cannot be: it was said, with the sum.
[[nodiscard]] std::optional<BoxSpec> fit_outside(const Spec& spec, const BoxSpec& box, Diagnostics& diagnostics);

}  // namespace fitup::plan

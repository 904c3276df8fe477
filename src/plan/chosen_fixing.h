#pragma once
// What holds a row of screws where the spec does not say it and a thread does not hold there. Private to the plan.

#include <cstddef>
#include <functional>
#include <span>
#include <vector>

#include "fitup/spec.h"

namespace fitup::plan {

/// The fixing of one row in a box, of a cover's screws or of the rod plates', and what is tried there in place of a
/// thread: as for the screws of items, and for a cover's row a strip last.
struct UnstatedFixing {
  std::function<Sourced<ScrewFixing>&(BoxSpec&)> in;
  std::span<const ScrewFixing> instead;
};
/// Of the box's covers and bolted rod plates those whose fixing the spec does not state.
[[nodiscard]] std::vector<UnstatedFixing> unstated_fixings(const BoxSpec& box);

/// Whether it was said of a row that its screws do not hold.
[[nodiscard]] bool holds_nowhere(const Diagnostics& said);
/// Whether less of that was said than before, and no more errors in all.
[[nodiscard]] bool holds_better(const Diagnostics& said, const Diagnostics& before);

/// How many errors among them.
[[nodiscard]] std::ptrdiff_t errors_in(const Diagnostics& said);

}  // namespace fitup::plan

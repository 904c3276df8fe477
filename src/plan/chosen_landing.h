#pragma once
// Where a flat cover's landing lies if the spec does not say it and strips in the opening stand in the way. Private to
// the plan.

#include <optional>

#include "fitup/spec.h"

namespace fitup::plan {

/// The box with the landing of the front or the back round its frame, where a flat cover lies on strips that the spec
/// does not ask for; nothing else.
[[nodiscard]] std::optional<BoxSpec> with_outward_landing(const BoxSpec& box, Face face);

/// Whether it was said of an item or a rod plate that it does not pass what stands in the opening.
[[nodiscard]] bool lets_in_too_little(const Diagnostics& said);
/// Whether less of that was said than before, and no more errors in all.
[[nodiscard]] bool lets_in_more(const Diagnostics& said, const Diagnostics& before);

}  // namespace fitup::plan

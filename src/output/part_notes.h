#pragma once
// What a part is fixed to and what comes through it, in words for a list.

#include <string>

#include "fitup/plan.h"
#include "output/units.h"

namespace fitup::output {

/// "weld to ANG01, ANG03", "screwed to ANG05, not welded"; both joined by "; "; empty for a part that is neither.
[[nodiscard]] std::string fixing_note(const Plan& plan, PartId id, const PaperUnits& units);

/// "2 holes 4.5 mm wide for screw tips": round holes that a screw passes which does not hold this part; else empty.
[[nodiscard]] std::string screw_tip_note(const Plan& plan, PartId id, const PaperUnits& units);

}  // namespace fitup::output

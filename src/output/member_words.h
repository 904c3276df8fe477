#pragma once
// What is sawn and drilled on a member, in words and numbers for the bench.

#include <string>

#include "fitup/plan.h"
#include "output/units.h"

namespace fitup::output {

/// "square", "mitre 45 degrees through both legs, long at the heel", or leg by leg what is cut back how far from the
/// end: "leg A removed 36; leg B: back 36 over 0 to 5 from the heel, corner at 5 as a chamfer 5 x 45 degrees".
[[nodiscard]] std::string end_words(const EndCut& cut, const Section& section, const PaperUnits& units);

/// "leg A, 20 from the heel: drill 3.3, tap M4, at 33, 95 from the start", before these what is notched: "leg B: notch
/// from 45 to 95 from the start, 17 deep from the toe"; empty without either. `along`: places along the bar as a list has
/// them, from which the member can be made again, or as a tape measures them, to 0.1 mm or 0.001 in.
enum class Along { listed, by_tape };
[[nodiscard]] std::string hole_words(const Member& member, const PaperUnits& units, Along along = Along::listed);

/// How the two ends and legs are told apart on the bar.
[[nodiscard]] std::string reading_words(const Member& member);

}  // namespace fitup::output

#pragma once
// The coat and the measured frame in words: for the summary, job.json and the notes of the lists. And the general
// tolerances that hold where nothing else is said.

#include <string>
#include <string_view>

#include "fitup/plan.h"
#include "output/units.h"

namespace fitup::output {

/// Where a list says nothing else. Of what the laser cuts: ranges 3 and 3 of its edge (common practice of job shops),
/// and of its size the class that the spec asks for. Of what is sawn and drilled: class medium. Of the frame once it is
/// welded: class B.
[[nodiscard]] constexpr std::string_view cut_tolerance(CutClass tolerance) {
  return tolerance == CutClass::one ? "ISO 9013-331" : "ISO 9013-332";
}
inline constexpr std::string_view sawn_tolerance = "ISO 2768-m";
inline constexpr std::string_view welded_tolerance = "ISO 13920-B";

/// "powder coat, 0.1 mm on each surface"; empty without a coat.
[[nodiscard]] std::string finish_words(const Plan& plan, const PaperUnits& units);

/// What the coat and the measured frame ask of the part: "threads stay bare: plug or chase them; made to the measured
/// frame"; empty where they ask nothing.
[[nodiscard]] std::string true_up_note(const Plan& plan, PartId id);

/// "ISO 2768-m, welded ISO 13920-B": of a part from its source, and of the frame where it is welded into it.
[[nodiscard]] std::string tolerance_note(const Plan& plan, PartId id);

}  // namespace fitup::output

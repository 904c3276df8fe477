#pragma once
// The nearest value of one knob that mends a finding.

#include <optional>
#include <string>

#include "fitup/findings.h"
#include "remedies/knobs.h"
#include "remedies/trials.h"

namespace fitup::remedies {

struct Mended {
  Remedy remedy;
  double change_mm = 0;  // how far from what stands in the spec
};

/// What came of one knob. `why_not`: of a knob that does not mend it, what is in the way of the value that would be next.
struct Tried {
  std::optional<Mended> mended;
  std::string why_not{};  // "with 6.5 mm ...", or empty
};
/// Mended by no value where none near by does, in neither direction, or where the knob changes nothing about it.
[[nodiscard]] Tried mend_with(const Knob& knob, const Finding& finding, const Concerned& what, Trials& trials);

}  // namespace fitup::remedies

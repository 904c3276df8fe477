#pragma once
// The nearest value of one knob that mends a finding.

#include <optional>

#include "fitup/findings.h"
#include "remedies/knobs.h"
#include "remedies/trials.h"

namespace fitup::remedies {

struct Mended {
  Remedy remedy;
  double change_mm = 0;  // how far from what stands in the spec
};

/// Nothing where no value near by does, in neither direction, or where the knob changes nothing about it.
[[nodiscard]] std::optional<Mended> mend_with(const Knob& knob, const Finding& finding, const Concerned& what,
                                              Trials& trials);

}  // namespace fitup::remedies

#pragma once
// Sections of the tables that would have room where those of a box have none, as remedies name them. Private to the
// plan.

#include <functional>
#include <string>

#include "plan/build.h"

namespace fitup::plan {

/// Of the shape and the system of sizes of the ring's section at that level, angles with equal legs, no thinner: the
/// lightest that `has_room`, by its key, `box.main.frame.section = "L 50x50x5"`. Empty where the tables hold none or
/// the box is of plates.
[[nodiscard]] std::string wider_section_words(const Build& build, Side level,
                                              const std::function<bool(const Section&)>& has_room);

}  // namespace fitup::plan

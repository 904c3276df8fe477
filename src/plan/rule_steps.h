#pragma once
// In which steps rules place and size. Private to the plan.

#include <cmath>

#include "fitup/tables.h"
#include "fitup/tolerances.h"

namespace fitup::plan {

/// Of metric threads and sections whole millimetres and fives of them, of unified threads and sections of inch sizes
/// sixteenths and quarters of an inch: what is placed decides, so that the same box comes of the same sizes in whatever
/// units its spec is written.
struct RuleSteps {
  double place_mm = 1;
  double size_mm = 5;
  /// The next step from there on, rounding left aside.
  [[nodiscard]] double place_up(double least_mm) const {
    return place_mm * std::ceil((least_mm - tolerance::contact_mm) / place_mm);
  }
};

inline constexpr RuleSteps inch_steps{25.4 / 16, 25.4 / 4};

[[nodiscard]] inline RuleSteps steps_of(const Thread& thread) {
  return tables::is_unified(thread) ? inch_steps : RuleSteps{};
}

[[nodiscard]] inline RuleSteps steps_of(const Section& section) {
  return section.designation.ends_with(" in") ? inch_steps : RuleSteps{};
}

}  // namespace fitup::plan

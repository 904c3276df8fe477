#pragma once
// What may be done where an outward landing would stand over the flange of a cover beside it. Private to the plan.

#include <optional>
#include <string>
#include <vector>

#include "fitup/diagnostic.h"
#include "fitup/spec.h"

namespace fitup::plan {

/// A box with another choice at one of the two faces, and that choice in words: "choose landing = \"inward\" for ...".
struct PastFlange {
  BoxSpec box;
  std::string words;
};

/// The face whose outward landing meets the flange of `other`.
struct LandingOverFlange {
  Face face{};
  Face other{};
};

/// Of which faces it was said; none where something else was.
[[nodiscard]] std::optional<LandingOverFlange> landing_over_flange(const BoxSpec& box, const Diagnostic& said);

/// The ways out, the one that changes least first: none that leaves a stated seal unheld.
[[nodiscard]] std::vector<PastFlange> ways_past_flange(const BoxSpec& box, const LandingOverFlange& meets);

/// The same with these ways instead of those that there are in general.
[[nodiscard]] Diagnostic told(Diagnostic said, const std::vector<PastFlange>& ways);

}  // namespace fitup::plan

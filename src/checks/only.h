#pragma once
// The checks for those who ask for less than all that they find, or for more.

#include <functional>
#include <string_view>

#include "fitup/findings.h"
#include "fitup/seams.h"

namespace fitup::checks {

/// What check_by_rules finds of this check: where that is possible without asking the others.
[[nodiscard]] Findings check_only(const Plan& plan, std::string_view check, int cores = 1);

class KnownChances;

/// Findings, and the seams that were worked out on the way.
struct WithSeams {
  Findings findings;
  Seams seams;
};
[[nodiscard]] Result<WithSeams> run_checks(const Plan& plan, const Model& model, int cores,
                                           const std::function<bool()>& stop);
/// `chances`: what is known of patterns from before, and is added to.
[[nodiscard]] WithSeams check_by_rules(const Plan& plan, int cores, KnownChances* chances = nullptr);

}  // namespace fitup::checks

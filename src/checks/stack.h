#pragma once
// stack: whether measured things, as large as they may be, still fit into their row, and onto their holes.

#include <vector>

#include "fitup/findings.h"

namespace fitup::checks {

[[nodiscard]] std::vector<Finding> check_stack(const Plan& plan);

/// What a row may be longer than drawn: at worst the sum of what each thing may be larger by, statistically the root of
/// the sum of their squares; swelling comes to both in full (common practice).
struct Growth {
  double worst_mm = 0;
  double statistical_mm = 0;
};
[[nodiscard]] Growth growth_of(const std::vector<double>& within_mm, double swelling_mm);

}  // namespace fitup::checks

#pragma once
// What stays open in a sealed cover inside the line of its seal.

#include <vector>

#include "fitup/findings.h"

namespace fitup::checks {

/// For each cover on a seal: its holes inside the seal's outer edge. What lies on the sheet and is wider than a hole
/// closes it (a gland, a screw's head, the strip round a hose). A hole round a lift boss is a failure, for nobody asked
/// for it; an opening that the spec states is marginal. Nothing where no cover is sealed.
[[nodiscard]] std::vector<Finding> check_sealed(const Plan& plan);

}  // namespace fitup::checks

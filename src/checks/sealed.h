#pragma once
// What stays open in a sealed cover inside the line of its seal, and in the walls of its box.

#include <vector>

#include "fitup/findings.h"

namespace fitup::checks {

/// For each cover on a seal: its holes inside the seal's outer edge. What lies on the sheet and is wider than a hole
/// closes it (a gland, a screw's head, the strip round a hose). A hole round a lift boss is a failure, for nobody asked
/// for it; an opening that the spec states is marginal. Nothing where no cover is sealed.
/// Of a plate of a box with a sealed cover that is cut in pieces, each joint is marginal: its seams end at the teeth.
[[nodiscard]] std::vector<Finding> check_sealed(const Plan& plan);

/// Joints of two pieces of one plate in a box with a sealed cover, by index into Plan::joints: to be welded tight.
[[nodiscard]] std::vector<std::size_t> joints_to_be_tight(const Plan& plan);

}  // namespace fitup::checks

#pragma once
// Round bores and threads in the pair decision: what of a round prism still has to be tested against a bored body.

#include <vector>

#include "checks/rules.h"

namespace fitup::checks {

/// What is left of a prism to test against a body with bores.
struct Remainder {
  std::vector<PlacedPrism> pieces;
  bool touches = false;  // a bore's wall, or its ground
};

/// A round prism that fits bores of `bored` loses the spans in which it runs in them. Where such a span's end is open
/// (nothing of `bored` lies before it), a little more is taken, so that the bore's mouth does not count as contact.
/// Anything else is returned whole.
[[nodiscard]] Remainder outside_bores(const PlacedPrism& prism, const Stack& bored, const PairOptions& options);

/// `holed` with each round hole that is coaxial with the round prism `screw` opened to the thread's major diameter.
[[nodiscard]] PlacedPrism opened_for_thread(const PlacedPrism& holed, const PlacedPrism& screw, double major_mm);

/// `prism` of a body with `bores` overlaps `other`: does it do so whatever the bores have taken from it?
[[nodiscard]] bool overlaps_beside_bores(const PlacedPrism& prism, const std::vector<PlacedBore>& bores,
                                         const PlacedPrism& other, const Rules& rules);

/// `other` touches a body with `bores`: could it stand wholly in a bore's mouth, and so touch nothing?
[[nodiscard]] bool may_stand_in_a_bore(const PlacedPrism& other, const std::vector<PlacedBore>& bores);

}  // namespace fitup::checks

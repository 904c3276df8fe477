#pragma once
// Further numbers of the cut list: points of mitres, hands, nuts on rods, spares.

#include <string>
#include <vector>

#include "fitup/plan.h"
#include "output/units.h"

namespace fitup::output {

/// The shorter of a mitred member's edges along its legs' toes; the whole length where nothing is mitred. What copes
/// take stands in the cuts.
[[nodiscard]] double short_point_mm(const Member& member);

/// "either" of a part that is its own mirror image, "opposite of ANG05" where the plan has that too, else "one".
[[nodiscard]] std::string hand_words(const Plan& plan, PartId id);

/// Where nuts sit on a rod, from its nearer end to their nearer face: "2 nuts 13.5 and 20 from one end, 2 nuts 8 and
/// 14.5 from the other". Rods of one part that carry nuts elsewhere each have their own words, with how many they are.
struct RodNuts {
  std::size_t count = 0;
  std::string words;
};
[[nodiscard]] std::vector<RodNuts> nuts_on_rods(const Plan& plan, PartId rod, const PaperUnits& units);

/// Screws, nuts, washers and the like get lost: so many are ordered. Other bought parts as they are counted.
[[nodiscard]] std::size_t with_spares(const Part& part, std::size_t count, double percent);

}  // namespace fitup::output

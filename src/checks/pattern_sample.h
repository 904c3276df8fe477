#pragma once
// A pattern's fasteners and holes with errors drawn by lot, time and again: how much larger the holes would have to be.

#include <cstddef>
#include <cstdint>
#include <map>
#include <vector>

#include "checks/meet.h"
#include "fitup/pattern.h"

namespace fitup::checks {

/// So many that a chance of 99 percent is known to 0.3 points either way (Wilson, 95 percent).
inline constexpr std::size_t usual_tries = 4000;

/// Of each try how much all clearances would have to grow for everything to go together, at or below 0 where it does.
/// Neither the order of the bodies and holes nor a reflection in X or Y changes it, and neither do the holes' sizes
/// change what is drawn: a larger hole never needs more.
enum class Asked { growth, whether };  // whether: what is above 0 says no more than that
[[nodiscard]] std::vector<double> needed_growth_mm(const Pattern& pattern, std::size_t tries = usual_tries,
                                                   Asked asked = Asked::growth, std::uint64_t seed = 1);

/// Remembers what was drawn of patterns that are asked for again, as of plans that differ elsewhere. For one thread at
/// a time.
class KnownChances {
 public:
  /// needed_growth_mm, with the usual seed.
  [[nodiscard]] std::vector<double> needed_growth_mm(const Pattern& pattern, std::size_t tries, Asked asked);

 private:
  std::map<std::vector<double>, std::vector<double>> known_;
};

/// How many of these go together once all holes are larger by this much, in diameter.
[[nodiscard]] std::size_t that_meet(const std::vector<double>& needed_mm, double larger_mm = 0);

}  // namespace fitup::checks

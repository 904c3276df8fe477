// Numbers drawn, and Wilson's interval.
// Entry: Draw, wilson.
#include "checks/chance.h"

#include <algorithm>
#include <cmath>

namespace fitup::checks {

double Draw::even() {
  constexpr double steps = 9007199254740992.0;  // 2^53: what a double holds
  return 2 * (static_cast<double>(engine_() >> 11) / steps) - 1;
}

double Draw::normal() {
  if (spare_) {
    const double kept = *spare_;
    spare_.reset();
    return kept;
  }
  for (;;) {
    const double x = even();
    const double y = even();
    const double square = x * x + y * y;
    if (square >= 1 || square == 0) continue;
    const double scale = std::sqrt(-2 * std::log(square) / square);
    spare_ = scale * y;
    return scale * x;
  }
}

std::array<double, 2> wilson(std::size_t hits, std::size_t tries) {
  constexpr double z = 1.959963984540054;  // of the normal distribution at 97.5 percent
  if (tries == 0) return {0, 1};
  const auto n = static_cast<double>(tries);
  const double p = static_cast<double>(hits) / n;
  const double middle = (p + z * z / (2 * n)) / (1 + z * z / n);
  const double half = z / (1 + z * z / n) * std::sqrt(p * (1 - p) / n + z * z / (4 * n * n));
  return {std::max(0.0, middle - half), std::min(1.0, middle + half)};
}

}  // namespace fitup::checks

#pragma once
// Numbers of load findings in words, fine enough to be reckoned with again.

#include <fmt/format.h>

#include <cmath>
#include <cstddef>
#include <string>

namespace fitup::loads {

/// So many decimals, and no "-0.0".
[[nodiscard]] inline std::string in_words(double value, int decimals) {
  const double step = std::pow(10, -decimals);
  const double rounded = std::round(value / step) * step;
  return fmt::format("{:.{}f}", rounded == 0 ? 0.0 : rounded, decimals);
}

/// "283.4 MPa", "4.40 MPa", "0.638 MPa": three digits at least.
[[nodiscard]] inline std::string mpa_words(double mpa) {
  const double size = std::abs(mpa);
  return in_words(mpa, size >= 9.995 || size < 5e-4 ? 1 : size >= 0.9995 ? 2 : 3) + " MPa";
}

/// "1 bead", "3 beads".
[[nodiscard]] inline std::string counted(std::size_t count, const char* one) {
  return fmt::format("{} {}{}", count, one, count == 1 ? "" : "s");
}

}  // namespace fitup::loads

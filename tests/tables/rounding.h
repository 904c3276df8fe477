#pragma once
// How far a true value may lie from a printed one.

#include <algorithm>
#include <cmath>

namespace fitup::test {

/// Half a unit of the last printed digit. The section tables print three significant figures, and two decimals
/// where that is fewer digits.
inline double rounding_of(double printed) {
  const double third_figure = std::pow(10.0, std::floor(std::log10(printed)) - 2);
  return 0.5 * std::max(third_figure, 0.01) * (1 + 1e-9);
}

/// Half a unit of the third significant figure.
inline double rounding_of_three_figures(double printed) {
  return 0.5 * std::pow(10.0, std::floor(std::log10(printed)) - 2) * (1 + 1e-9);
}

}  // namespace fitup::test

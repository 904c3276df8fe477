// Twist drills of the inch series by number, letter and fraction.
// Entry: inch_drill_name().
#include <fmt/format.h>

#include <array>
#include <cmath>
#include <numeric>

#include "fitup/drills.h"

namespace fitup::tables {
namespace {

constexpr double mm_per_in = 25.4;
constexpr double same_in = 0.0003;

// Numbers 1 to 60 and letters A to Z: ASME B94.11M, from memory.
constexpr std::array numbered_in{
    0.2280, 0.2210, 0.2130, 0.2090, 0.2055, 0.2040, 0.2010, 0.1990, 0.1960, 0.1935, 0.1910, 0.1890,
    0.1850, 0.1820, 0.1800, 0.1770, 0.1730, 0.1695, 0.1660, 0.1610, 0.1590, 0.1570, 0.1540, 0.1520,
    0.1495, 0.1470, 0.1440, 0.1405, 0.1360, 0.1285, 0.1200, 0.1160, 0.1130, 0.1110, 0.1100, 0.1065,
    0.1040, 0.1015, 0.0995, 0.0980, 0.0960, 0.0935, 0.0890, 0.0860, 0.0820, 0.0810, 0.0785, 0.0760,
    0.0730, 0.0700, 0.0670, 0.0635, 0.0595, 0.0550, 0.0520, 0.0465, 0.0430, 0.0420, 0.0410, 0.0400,
};
constexpr std::array lettered_in{
    0.234, 0.238, 0.242, 0.246, 0.250, 0.257, 0.261, 0.266, 0.272, 0.277, 0.281, 0.290, 0.295,
    0.302, 0.316, 0.323, 0.332, 0.339, 0.348, 0.358, 0.368, 0.377, 0.386, 0.397, 0.404, 0.413,
};

std::optional<std::string> fraction(double in) {
  constexpr int parts = 64;
  const int steps = static_cast<int>(std::lround(in * parts));
  if (steps < 1 || std::abs(in - static_cast<double>(steps) / parts) > same_in) return std::nullopt;
  const int whole = steps / parts;
  const int rest = steps % parts;
  if (rest == 0) return fmt::format("{} in", whole);
  const int common = std::gcd(rest, parts);
  return fmt::format("{}{}/{} in", whole == 0 ? "" : fmt::format("{}-", whole), rest / common, parts / common);
}

}  // namespace

std::optional<std::string> inch_drill_name(double diameter_mm) {
  const double in = diameter_mm / mm_per_in;
  if (auto name = fraction(in)) return name;
  for (std::size_t k = 0; k < numbered_in.size(); ++k) {
    if (std::abs(in - numbered_in[k]) <= same_in) return fmt::format("#{} ({} in)", k + 1, numbered_in[k]);
  }
  for (std::size_t k = 0; k < lettered_in.size(); ++k) {
    const char letter = static_cast<char>('A' + k);
    if (std::abs(in - lettered_in[k]) <= same_in) return fmt::format("{} ({} in)", letter, lettered_in[k]);
  }
  return std::nullopt;
}

}  // namespace fitup::tables

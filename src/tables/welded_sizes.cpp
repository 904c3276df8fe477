// General tolerances of welded constructions.
// Entry: welded_length_permits_mm, welded_angle_permits_minutes.
#include "fitup/welded_sizes.h"

#include <array>
#include <cstddef>

namespace fitup::tables {

namespace {

// ISO 13920:1996, class B: table 1 up to this nominal size, plus or minus; table 2 up to this shorter leg, in minutes.
struct Row {
  double up_to_mm;
  double permits;
};
constexpr std::array<Row, 7> lengths_b{{{30, 1}, {120, 2}, {400, 2}, {1000, 3}, {2000, 4}, {4000, 6}, {8000, 8}}};
constexpr std::array<Row, 3> angles_b{{{400, 45}, {1000, 30}, {1e9, 20}}};

template <std::size_t N>
double permitted(const std::array<Row, N>& rows, double size_mm) {
  for (const Row& row : rows) {
    if (size_mm <= row.up_to_mm) return row.permits;
  }
  return rows.back().permits;
}

}  // namespace

double welded_length_permits_mm(double nominal_mm) { return permitted(lengths_b, nominal_mm); }

double welded_angle_permits_minutes(double shorter_leg_mm) { return permitted(angles_b, shorter_leg_mm); }

}  // namespace fitup::tables

// General tolerances of welded constructions, and of what is sawn.
// Entry: welded_length_permits_mm, welded_angle_permits_minutes, sawn_length_permit.
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

// ISO 2768-1:1989, table 1, linear dimensions, class m (published; reprinted on a job shop's reference page).
constexpr std::array<SawnPermit, 7> lengths_m{{{6, 0.1}, {30, 0.2}, {120, 0.3}, {400, 0.5}, {1000, 0.8}, {2000, 1.2}, {4000, 2}}};

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

SawnPermit sawn_length_permit(double nominal_mm) {
  for (const SawnPermit& row : lengths_m) {
    if (nominal_mm <= row.up_to_mm) return row;
  }
  return lengths_m.back();
}

}  // namespace fitup::tables

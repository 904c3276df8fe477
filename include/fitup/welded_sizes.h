#pragma once
// What a welded frame may be off by: ISO 13920:1996, class B.

namespace fitup::tables {

/// Of a length of this nominal size, plus or minus (table 1).
[[nodiscard]] double welded_length_permits_mm(double nominal_mm);

/// Of an angle whose shorter leg is so long, in minutes (table 2).
[[nodiscard]] double welded_angle_permits_minutes(double shorter_leg_mm);

}  // namespace fitup::tables

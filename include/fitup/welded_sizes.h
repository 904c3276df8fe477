#pragma once
// What a welded frame may be off by, ISO 13920:1996, class B, and a length that is sawn, ISO 2768-1:1989, class m.

namespace fitup::tables {

/// Of a length of this nominal size, plus or minus (table 1).
[[nodiscard]] double welded_length_permits_mm(double nominal_mm);

/// Of an angle whose shorter leg is so long, in minutes (table 2).
[[nodiscard]] double welded_angle_permits_minutes(double shorter_leg_mm);

/// What the screws of a cover draw together of a gap under its flanges, at most: as between any two plies EN
/// 1090-2, 8.1 and 8.3, from memory; of a flange common practice.
inline constexpr double flange_drawn_at_most_mm = 4;

/// From one element of an intermittent weld to the next, at least: a bead needs that to start and stop (common practice).
inline constexpr double least_stitch_gap_mm = 10;

/// A row of ISO 2768-1, table 1, class m: nominal sizes up to this one, plus or minus.
struct SawnPermit {
  double up_to_mm = 0;
  double mm = 0;
};
/// Of lengths beyond the table its last row.
[[nodiscard]] SawnPermit sawn_length_permit(double nominal_mm);

}  // namespace fitup::tables

#pragma once
// What rod plates may be made of.

namespace fitup::tables {

inline constexpr double thinnest_rod_plate_mm = 0.5;
inline constexpr double thickest_rod_plate_mm = 20;

}  // namespace fitup::tables

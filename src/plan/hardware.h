#pragma once
// Bought and turned parts as prisms, from the tables. Private to the plan.

#include "fitup/plan.h"

namespace fitup::plan {

/// A pose at `origin` whose z runs along `direction` (an axis direction).
[[nodiscard]] Pose along(Vec3 origin, Vec3 direction);

/// Threaded rod, round at the major diameter, z from 0 to length.
[[nodiscard]] Part threaded_rod(const Thread& thread, double length_mm);
/// ISO 4032, largest sizes, hole at the internal minor diameter; z from 0 to height.
[[nodiscard]] Part hex_nut(const Thread& thread, const HexNut& nut);
/// ISO 7089.
[[nodiscard]] Part plain_washer(const Washer& washer);
/// ISO 7380-1 as the cylinder that its largest sizes allow, with its hexagon socket; the seat is z = 0, the
/// shank runs to z = length, the head to z = -height.
[[nodiscard]] Part button_head_screw(const Thread& thread, const ButtonHead& head, double length_mm);
/// A round with a tapped hole right through, drawn at the tap drill; z from 0 to height.
[[nodiscard]] Part lift_boss(const Thread& thread, double diameter_mm, double height_mm, const std::string& material);

/// The gland in a sheet `sheet_mm` thick: z = 0 is the sheet's outer face, the body stands out to z < 0, the locknut
/// lies on the inner face. Polyamide.
[[nodiscard]] Part cable_gland(const Gland& gland, double sheet_mm);

/// Shortest stock length that is at least `least_mm`; 0 where there is none.
[[nodiscard]] double screw_length_mm(const Thread& thread, double least_mm);

}  // namespace fitup::plan

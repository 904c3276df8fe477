#pragma once
// The tolerances of the whole program, each with its reason. Lengths in millimetres.

namespace fitup::tolerance {

/// Lengths from the spec are snapped to this grid when read, so that "3/16 in" and 4.7625 are the same box.
inline constexpr double snap_mm = 1e-6;

/// Two solids closer than this, or sharing less than this, touch: well above the kernel's own 1e-7 vertex
/// tolerance and the rounding of sums of snapped lengths, well below anything a shop can measure.
inline constexpr double contact_mm = 1e-4;

/// Coordinates nearer than this are the same point of a profile: rounding of arcs built from bulges.
inline constexpr double coincident_mm = 1e-7;

/// Relative difference allowed between a volume of the kernel and the same volume in closed form:
/// its integration is good to about 3e-7.
inline constexpr double volume_relative = 1e-6;

/// Direction cosines nearer than this are parallel or perpendicular.
inline constexpr double direction = 1e-9;

}  // namespace fitup::tolerance

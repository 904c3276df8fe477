#pragma once
// Bought and turned parts as prisms, from the tables. Private to the plan.

#include <functional>
#include <string>

#include "fitup/plan.h"
#include "fitup/spec.h"

namespace fitup::plan {

/// A pose at `origin` whose z runs along `direction` (an axis direction).
[[nodiscard]] Pose along(Vec3 origin, Vec3 direction);

/// ", class 5": of the nut that goes with a rod of this property class (ISO 898-2; nuts of stainless steel have the
/// rod's, ISO 3506-2); nothing where none is asked for.
[[nodiscard]] std::string nut_class_in_words(const std::optional<Sourced<std::string>>& rod_strength);

/// Threaded rod, round at the major diameter, z from 0 to length.
[[nodiscard]] Part threaded_rod(const Thread& thread, double length_mm);
/// ISO 4032, largest sizes, hole at the internal minor diameter; z from 0 to height.
[[nodiscard]] Part hex_nut(const Thread& thread, const HexNut& nut);
/// ISO 7040, the same way.
[[nodiscard]] Part lock_nut(const Thread& thread, const LockNut& nut);
/// DIN 929 or of unified thread: z = 0 is what it is welded on; drawn without the pilot that stands in the hole.
[[nodiscard]] Part weld_nut(const Thread& thread, const WeldNut& nut);
/// A rivet nut that is set in a sheet: z = 0 is the sheet's far side, its bulge lies on it, the thread is at the end.
[[nodiscard]] Part rivet_nut(const Thread& thread, const RivetNut& nut, double sheet_mm);
/// DIN 580 or ASME B18.15, as what it needs room for: z = 0 is the collar's seat, the shank runs to z < 0, the ring stands across x.
[[nodiscard]] Part lifting_eye(const Thread& thread, const Eye& eye);
/// ISO 7089, or ISO 7093-1.
[[nodiscard]] Part plain_washer(const Washer& washer);
/// ISO 7380-1 as the cylinder that its largest sizes allow, with its hexagon socket; the seat is z = 0, the
/// shank runs to z = length, the head to z = -height.
[[nodiscard]] Part button_head_screw(const Thread& thread, const ButtonHead& head, double length_mm);
/// A round with a tapped hole right through, drawn at the tap drill; z from 0 to height.
[[nodiscard]] Part lift_boss(const Thread& thread, double diameter_mm, double height_mm, const std::string& material);

/// A threaded stud for welding, z from 0, where it is welded on, to length.
[[nodiscard]] Part weld_stud(const Thread& thread, double length_mm);

/// The gland in a sheet `sheet_mm` thick: z = 0 is the sheet's outer face, the body stands out to z < 0, the locknut
/// lies on the inner face. Polyamide.
[[nodiscard]] Part cable_gland(const Gland& gland, double sheet_mm);
inline constexpr double edge_lip_thickness_mm = 2;  // common practice
/// A rubber strip round the hole of a hose, its lips on both faces of the sheet; Z = 0 is the sheet's outer face.
[[nodiscard]] Part edge_strip(double hose_mm, double strip_mm, double sheet_mm, UnitSystem units);

/// "a thread of M3, M4, M5 or 1/4-20": those that have it.
[[nodiscard]] std::string threads_in_words(const std::function<bool(const Thread&)>& has_it);

/// Shortest stock length that is at least `least_mm`; 0 where there is none.
[[nodiscard]] double screw_length_mm(const Thread& thread, double least_mm);

}  // namespace fitup::plan

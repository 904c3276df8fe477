#pragma once
// Sheets that are bent: what a bend takes of the flat pattern, the bent body, and what goes where in the pattern.
// Private to the plan.

#include <optional>
#include <vector>

#include "fitup/plan.h"

namespace fitup::plan {

/// Of DIN 6935: how far from the inside the neutral axis lies, in thicknesses: half of 0.65 + 0.5 log10(r / t), which
/// is at most 1.
[[nodiscard]] double din_6935_k(double radius_mm, double thickness_mm);

/// Length of the neutral axis round a bend.
[[nodiscard]] double bend_allowance_mm(double angle_deg, double radius_mm, double k, double thickness_mm);

/// What such a flange must stand out, measured outside: 0.7 of the die's opening, which is 6 thicknesses below 3 mm, 8
/// to 8 mm, 10 to 10 mm, else 12 (published bending guides, from memory), and at least 2 thicknesses and the radius.
[[nodiscard]] double least_flange_mm(double radius_mm, double thickness_mm);

/// From the edge of a bend's zone to the edge of a hole: 2 thicknesses, which is 2 t + r from the inside of the other
/// wall (common practice).
[[nodiscard]] double hole_to_bend_mm(double thickness_mm);

/// The body as it is bent: what stays, and for each bend a quarter of a cylinder and its flange.
[[nodiscard]] std::vector<Prism> bent_prisms(const Flat& flat);

/// What is bent up as it stands beyond its bend: from where its line begins along it, and out from what stays.
struct BentSide {
  Vec2 foot;  // in the flat pattern, where the bend's zone ends
  Vec2 run;
  Vec2 out;
  double length_mm = 0;
  Vec3 corner;  // of the body, on the outside of its wall or the inside
  Vec3 rise;
};
[[nodiscard]] BentSide bent_side(const Bend& bend, double thickness_mm);

/// Where in the flat pattern a point of the body lies, if a hole in this direction goes square through its wall there.
[[nodiscard]] std::optional<Vec2> in_pattern(const Flat& flat, Vec3 local, Vec3 direction);

/// How far a point of the pattern is from the nearest bend's zone; negative in it.
[[nodiscard]] std::optional<double> from_bends_mm(const Flat& flat, Vec2 at);

}  // namespace fitup::plan

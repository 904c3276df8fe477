#pragma once
// Outlines beside outlines: what the middle of a cut runs along.

#include <optional>

#include "fitup/geometry.h"

namespace fitup::geometry {

/// Every point at `by_mm` from the loop on its outer side, or on its inner side where that is below 0. Corners that the
/// way leads round are arcs about the corner, all others are where the neighbours cross:
///
///   area(grown) = area + perimeter * by + pi * by^2   for a convex loop
///
/// None where an edge is too short for it, or what comes of it meets itself.
[[nodiscard]] std::optional<Loop> offset(const Loop& loop, double by_mm);

/// The outline of the outer side, its holes of the inner one: what a cut of twice that width leaves is the profile.
[[nodiscard]] std::optional<Profile> offset(const Profile& profile, double by_mm);

}  // namespace fitup::geometry

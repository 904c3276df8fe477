#pragma once
// Outlines and placing that the generated pairs share.

#include <random>

#include "checks/generated_pairs.h"
#include "fitup/geometry.h"
#include "fitup/tables.h"

namespace fitup::generated {

[[nodiscard]] double between(Random& random, double low, double high);
[[nodiscard]] std::size_t pick(Random& random, std::size_t count);
[[nodiscard]] Vec2 unit(double degrees);

[[nodiscard]] Profile disc(Vec2 centre, double radius);
[[nodiscard]] Profile box(Vec2 low, Vec2 high);
[[nodiscard]] Profile hexagon(Vec2 centre, double across_flats);
/// A slot's outline: straight sides along x, half-round ends.
[[nodiscard]] Profile racetrack(Vec2 centre, double length, double width);
[[nodiscard]] Profile moved(Profile profile, Vec2 by);
/// One of a few angle sections of the table, heel at the origin.
[[nodiscard]] const Section& any_angle(Random& random);

/// Along z from `from`; along x from `from` with the profile in (y, z); along y with the profile in (z, x).
[[nodiscard]] Prism along_z(Profile profile, double from, double length);
[[nodiscard]] Prism along_x(Profile profile, double from, double length);
[[nodiscard]] Prism along_y(Profile profile, double from, double length);

[[nodiscard]] Body body(std::vector<Prism> prisms, std::vector<Bore> bores = {});

/// The pair for one offset, in canonical position; `place` gets the offset.
using Bodies = std::pair<Body, Body>;
[[nodiscard]] std::vector<Pair> at_all_offsets(Random& random, const std::string& what,
                                               const std::function<Bodies(double)>& place);

}  // namespace fitup::generated

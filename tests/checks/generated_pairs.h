#pragma once
// Pairs of bodies that are placed to touch and then moved apart or into each other by a known amount, in random
// sizes and in any of the 24 quarter-turn orientations.

#include <functional>
#include <random>
#include <string>
#include <vector>

#include "checks/rules.h"
#include "fitup/plan.h"

namespace fitup::generated {

struct Pair {
  std::string what;
  Body a;
  Body b;
  Pose at;              // of both
  double apart_mm = 0;  // negative: so deep in each other
  checks::Decision expected = checks::Decision::unsure;
};

/// What must come out for a pair placed to touch and then moved by this much.
[[nodiscard]] checks::Decision expected_at(double apart_mm);

/// 0, and 1e-6, 1e-3 and 0.05 mm to either side.
[[nodiscard]] const std::vector<double>& offsets_mm();

using Random = std::mt19937;

/// One kind of pair: draws random sizes, gives the pair for every offset.
struct Kind {
  std::string name;
  std::function<std::vector<Pair>(Random&)> draw;
};

[[nodiscard]] std::vector<Kind> span_kinds();  // parallel axes, end to end
[[nodiscard]] std::vector<Kind> disc_kinds();  // discs and round holes
[[nodiscard]] std::vector<Kind> rectangle_kinds();
[[nodiscard]] std::vector<Kind> region_kinds();    // parallel axes, side by side, lines and arcs
[[nodiscard]] std::vector<Kind> crossing_kinds();  // perpendicular axes
[[nodiscard]] std::vector<Kind> bore_kinds();      // rods and screws in bored bodies

/// `rounds` draws of each kind, all offsets.
[[nodiscard]] std::vector<Pair> draw(const std::vector<Kind>& kinds, unsigned seed, int rounds);

}  // namespace fitup::generated

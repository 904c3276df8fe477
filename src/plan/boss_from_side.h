#pragma once
// How far lift bosses by rule stand in from the sides of the box. Private to the plan.

#include <array>
#include <vector>

#include "plan/build.h"
#include "plan/rule_steps.h"

namespace fitup::plan {

inline constexpr double least_boss_rim_mm = 3;  // steel that stays between the hole and the leg's toe

/// Steel that stays between a boss's hole and its strip's inner edge, at least: in a box of plates the web that the
/// shop cuts, in border and doubler.
[[nodiscard]] double boss_rim_mm(const Build& build);

/// The rows of bosses along the left and the right of the top.
struct BossRows {
  using Places = std::array<std::vector<double>, 2>;
  double leg_mm = 0;  // of the strip on which they stand
  double diameter_mm = 0;
  Places along;  // Y
};

/// At the root, or as far from it as the sheet over it needs for a whole hole, and reliefs of the top's tabs beside it for
/// a web, where the leg is as wide; in the rule's steps, if these leave room.
[[nodiscard]] double boss_from_side_mm(Build& build, Side side, const BossRows& rows, const RuleSteps& steps);

}  // namespace fitup::plan

#pragma once
// Seams of a frame's joints: each member cut free at each node, and each panel of sheet at each node that holds it.

#include <map>
#include <utility>
#include <vector>

#include "loads/solved_cases.h"
#include "loads/worst_seam.h"

namespace fitup::loads {

/// What is looked at apart.
enum class Seamed { members, rails, sheet };

/// By case, in their order (those of the same words are one), and what is looked at.
[[nodiscard]] std::map<std::pair<std::size_t, Seamed>, WorstSeam> worst_frame_seams(
    const Plan& plan, const Seams& seams, const FrameModel& model, const std::vector<SolvedCase>& cases);

}  // namespace fitup::loads

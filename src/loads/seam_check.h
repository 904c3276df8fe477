#pragma once
// Check "seams": the stress in the throats of the frame's joints, of feet, of lugs and of their doublers, and the least
// size of fillets.
//
// At each joint of the space frame every member is cut free in turn: what the joint does to it goes through all its
// seams there, as elastic lines between rigid parts; so each panel of sheet at each node that holds it. A member that
// goes on past what ends on it is seen from that alone.

#include <vector>

#include "fitup/findings.h"
#include "fitup/seams.h"
#include "loads/solved_cases.h"

namespace fitup::loads {

/// `model`: null where the plan has no frame of members; `cases` belong to it.
[[nodiscard]] std::vector<Finding> check_seams(const Plan& plan, const Seams& seams, const Weights& weights,
                                               const FrameModel* model, const std::vector<SolvedCase>& cases);

}  // namespace fitup::loads

#pragma once
// Check "seams": the stress in the throats of the frame's joints, of feet and of lugs, and the least size of fillets.
//
// At each joint of the space frame every member is cut free in turn: what the joint does to it goes through all its
// seams there, as elastic lines between rigid parts. So a seam is looked at from both of its parts. What plates that
// are welded on take of it is left out.

#include <vector>

#include "fitup/findings.h"
#include "fitup/seams.h"
#include "loads/frame_check.h"

namespace fitup::loads {

/// `model`: null where the plan has no frame of members; `cases` belong to it.
[[nodiscard]] std::vector<Finding> check_seams(const Plan& plan, const Seams& seams, const Weights& weights,
                                               const FrameModel* model, const std::vector<FrameCase>& cases);

}  // namespace fitup::loads

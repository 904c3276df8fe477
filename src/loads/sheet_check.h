#pragma once
// Check "frame" of the sheet between members: the stress in the middle of each rectangle of welded plates, rod plates
// and gussets, and whether the sheet buckles.

#include "fitup/findings.h"
#include "loads/member_stress.h"

namespace fitup::loads {

[[nodiscard]] std::vector<Finding> check_sheet(const Plan& plan, const FrameModel& model,
                                               const std::vector<SolvedCase>& cases,
                                               const std::vector<Relief>& reliefs);

/// What a flat rectangle carries in its plane before it buckles, its edges supported: N/mm2 of pressure across the
/// width that is given, k = 4; of shear, k = 5.34 + 4 (b / a)^2 (Timoshenko; EN 1993-1-5, annex A, from memory).
[[nodiscard]] double pressed_buckles_mpa(const Elastic& elastic, double thickness_mm, double width_mm);
[[nodiscard]] double sheared_buckles_mpa(const Elastic& elastic, double thickness_mm, double a_mm, double b_mm);

}  // namespace fitup::loads

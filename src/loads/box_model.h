#pragma once
// Which model of a whole is reckoned with, and what of it stands in none.

#include <optional>
#include <vector>

#include "fitup/findings.h"
#include "loads/frame_model.h"

namespace fitup::loads {

/// Of the first box, as sheet where it is built of plates, else as a frame together with all frames that it is joined
/// to. Nothing where nothing in it is welded together.
[[nodiscard]] std::optional<FrameModel> box_model(const Plan& plan, const Seams& seams);

/// Boxes of which nothing but their bearers stands in the model, one finding each: they weigh on it, and are not checked themselves.
[[nodiscard]] std::vector<Finding> boxes_left_out(const Plan& plan, const FrameModel& model);

}  // namespace fitup::loads

#pragma once
// Which seams beside a member's joint carry together with those of the joint.

#include <map>
#include <set>
#include <utility>

#include "loads/frame_model.h"

namespace fitup::loads {

/// An instance at a node of the frame.
using AtNode = std::pair<InstanceId, std::size_t>;

/// Each node of a member to the nearest of its `joints`, no farther along it than `reach_mm`; a joint to itself. Nodes
/// that are farther from all of them are left out.
[[nodiscard]] std::map<AtNode, AtNode> joints_beside(const FrameModel& model, const std::set<AtNode>& joints,
                                                     double reach_mm);

}  // namespace fitup::loads

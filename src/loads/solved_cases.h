#pragma once
// The frame's cases, each solved once for all that look at it; those that are held alike share their factors.

#include <memory>
#include <optional>
#include <vector>

#include "loads/frame_check.h"

namespace fitup::loads {

struct SolvedCase {
  const FrameCase* of = nullptr;
  std::shared_ptr<const FrameSolver> solver;
  FrameResult result;
};
/// Nothing where the frame is a mechanism in one of them. Refers to `cases`.
[[nodiscard]] std::optional<std::vector<SolvedCase>> solved(const std::vector<FrameCase>& cases);

}  // namespace fitup::loads

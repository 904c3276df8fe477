#pragma once
// Where the whole stands or hangs: on its feet, by its lugs, or on the corners of its first box.

#include <string>
#include <vector>

#include "loads/load_paths.h"

namespace fitup::loads {

struct StandsOn {
  std::vector<Support> supports;  // pinned
  std::string standing;           // "standing on its feet"
  std::string held;               // "held by the bolts of its feet"
};

/// At each bolt of feet and lugs, which hold both ways, the nearest node of what the foot or the lug is welded to, or of
/// the member that the bolt goes through; so what they pry is left out. Where there are fewer than three such nodes, or all
/// on one line, the four lower corners of the first box.
[[nodiscard]] StandsOn stands_on(const Plan& plan, const FrameModel& model, const LoadPaths& paths);

}  // namespace fitup::loads

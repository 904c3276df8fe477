#pragma once
// One picture of a finding as SVG.

#include <string>

#include "fitup/job.h"
#include "output/finding_scene.h"

namespace fitup::output {

/// Without a scene: the words alone, and the whole with nothing marked in it.
[[nodiscard]] std::string finding_page(const Finding& finding, const std::optional<FindingScene>& scene,
                                       const PlacedPlan& placed, const JobInfo& info);

}  // namespace fitup::output

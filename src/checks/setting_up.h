#pragma once
// Whether plates that find their own places come there along their straight ways.

#include <vector>

#include "checks/scene.h"
#include "checks/ways.h"
#include "fitup/findings.h"

namespace fitup::checks {

/// One after another, as Plan::set_up says, past those that stand there by then. A base ring stands there from the
/// first. Nothing where the plan has none.
[[nodiscard]] std::vector<Finding> check_setting_up(const Scene& scene, const Ways& ways);

}  // namespace fitup::checks

#pragma once
// Check "overlap": no two instances share volume, and nothing enters a zone that is kept clear.
// One finding per pair that does: value is the least translation along X, Y or Z that parts them.

#include <vector>

#include "checks/contacts.h"
#include "fitup/findings.h"

namespace fitup::checks {

[[nodiscard]] std::vector<Finding> check_overlap(const Scene& scene, const Contacts& contacts, int cores);

}  // namespace fitup::checks

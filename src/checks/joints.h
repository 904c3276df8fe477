#pragma once
// Check "joints": every stated weld, bolted, bearing and thread joint meets within what it permits, and every contact
// is stated by a joint of some kind. Value of a gap: how far `a` stands off along the joint's normal.

#include <vector>

#include "checks/contacts.h"
#include "fitup/findings.h"

namespace fitup::checks {

[[nodiscard]] std::vector<Finding> check_joints(const Scene& scene, const Contacts& contacts, int cores);

}  // namespace fitup::checks

#pragma once
// The part of a foot or a lug that is a length of angle. Private to the plan.

#include <string>

#include "fitup/part.h"

namespace fitup::plan {

/// Of a foot, FOT01, or a lug, LUG01.
[[nodiscard]] std::string mount_mark(Role role);

/// A length of that angle with square ends; its hole is made where it stands.
[[nodiscard]] Part cleat_of(const Section& section, double length_mm, Role role, const std::string& material);

}  // namespace fitup::plan

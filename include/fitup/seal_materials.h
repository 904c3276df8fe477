#pragma once
// What seal strips are made of. Nothing else is: a frame of rubber is an error.

#include <vector>

#include "fitup/tables.h"

namespace fitup::tables {

/// Cellular rubbers, found by find_material as metals are, but none of materials().
[[nodiscard]] const std::vector<Material>& seal_materials();

}  // namespace fitup::tables

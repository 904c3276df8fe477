#pragma once
// What joins a box to another one, to the ground and to a wall: from checked cells.

#include <optional>

#include "spec/cell.h"

namespace fitup::spec {

/// None where the table is absent.
[[nodiscard]] std::optional<MountSpec> mounts(const Cell* cell);

/// under, on, at, bearers and feet of a box.
void read_joined(const Cell& cell, BoxSpec& box);

}  // namespace fitup::spec

#pragma once
// The space that the whole goes into, from checked cells.

#include <optional>

#include "fitup/spec.h"
#include "spec/cell.h"

namespace fitup::spec {

[[nodiscard]] std::optional<SpaceSpec> read_space(const Cell* cell);

}  // namespace fitup::spec

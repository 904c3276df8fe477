#pragma once
// How a box is welded, from checked cells.

#include "fitup/spec.h"
#include "spec/cell.h"

namespace fitup::spec {

/// Of the cell of box.NAME.welds.
[[nodiscard]] WeldsSpec read_welds(const Cell& cell);

}  // namespace fitup::spec

#pragma once
// How a box is welded, from checked cells.

#include <optional>

#include "fitup/diagnostic.h"
#include "fitup/spec.h"
#include "spec/cell.h"

namespace fitup::spec {

/// Of the cell of box.NAME.welds.
[[nodiscard]] WeldsSpec read_welds(const Cell& cell);

/// Of the cell of box.NAME.welds or of a face: its stitch.
[[nodiscard]] std::optional<StitchSpec> read_stitch(const Cell& cell);

/// Intermittent seams in a box that a seal is to keep tight.
void check_stitch(const BoxSpec& box, Diagnostics& diagnostics);

}  // namespace fitup::spec

#pragma once
// How a box is built, and its sheets, from checked cells.

#include "fitup/diagnostic.h"
#include "fitup/spec.h"
#include "spec/cell.h"

namespace fitup::spec {

/// Of the cell of box.NAME.
void read_plates(const Cell& cell, BoxSpec& box);

/// Says which keys of the frame do nothing in a box of plates, and which of the plates in a framed one.
void check_build(const BoxSpec& box, Diagnostics& diagnostics);

}  // namespace fitup::spec

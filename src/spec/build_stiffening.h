#pragma once
// Cross bars, braces and gussets of a frame, from checked cells.

#include "fitup/spec.h"
#include "spec/cell.h"

namespace fitup::spec {

/// Of the frame's cell.
void read_stiffening(const Cell& cell, FrameSpec& frame);

/// Says which braces have no face to stand in.
void check_stiffening(const BoxSpec& box, Diagnostics& diagnostics);

}  // namespace fitup::spec

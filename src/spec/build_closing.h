#pragma once
// How plates and the flanges of covers are made: from checked cells.

#include "spec/cell.h"

namespace fitup::spec {

/// set, flanges and what goes with them, bend and notch_gap of a face.
void read_closing(const Cell& cell, FaceSpec& face);

/// How far flanges of angle reach follows from their section.
void choose_flanges(const Spec& spec, BoxSpec& box);

}  // namespace fitup::spec

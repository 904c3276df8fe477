#pragma once
// Sections by their own sizes, and the uprights that go with a section: from checked cells.

#include <vector>

#include "spec/cell.h"

namespace fitup::spec {

/// Of `[section]`, by name; what is not given follows from what is. Their designations are in the spec's units.
[[nodiscard]] std::vector<OwnSection> own_sections(const Cell* cell, UnitSystem units);

/// Where none are given: the flat bar most like the leg that lies, or the ring's own tube.
void choose_uprights(const Spec& spec, FrameSpec& frame);

/// Where nothing is said, rings of tube are butted.
void choose_corners(const Spec& spec, FrameSpec& frame);

/// Reports own sections that cannot be rolled: radii that do not fit, legs that are no legs.
void check_own_sections(const Spec& spec, const Cell& root, Diagnostics& diagnostics);

/// Reports what tubes are not made into, and keys that mean nothing without them or with them.
void check_frame_tubes(const Spec& spec, const Cell& root, Diagnostics& diagnostics);

}  // namespace fitup::spec

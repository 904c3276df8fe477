#pragma once
// What one key cannot know alone: whether values of a spec go together.

#include "fitup/spec.h"
#include "spec/cell.h"

namespace fitup::spec {

/// Only values that are sound are compared, so that no error is reported twice.
void check_together(const Spec& spec, const Cell& root, Diagnostics& diagnostics);

}  // namespace fitup::spec

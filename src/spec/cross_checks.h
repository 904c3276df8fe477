#pragma once
// What one key cannot know alone: whether values of a spec go together.

#include "fitup/spec.h"
#include "spec/cell.h"
#include "spec/like.h"

namespace fitup::spec {

/// Only values that are sound are compared, so that no error is reported twice.
void check_together(const Spec& spec, const Cell& root, Diagnostics& diagnostics);

/// An item that is like another but has another size must state its mass.
void check_own_sizes(const Spec& spec, const Cell& root, const std::vector<OwnSize>& own_sizes,
                     Diagnostics& diagnostics);

}  // namespace fitup::spec

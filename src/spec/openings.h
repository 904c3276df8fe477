#pragma once
// Whether an opening has what its kind needs.

#include "fitup/spec.h"
#include "spec/cell.h"

namespace fitup::spec {

/// Errors for what is missing, warnings for what has no effect. Only values that are sound are looked at.
void check_openings(const Spec& spec, const Cell& root, Diagnostics& diagnostics);

}  // namespace fitup::spec

#pragma once
// Whether boxes that hang or stand on each other, their bearers, feet and lugs go together.

#include "fitup/spec.h"
#include "spec/cell.h"

namespace fitup::spec {

/// Only values that are sound are compared, so that no error is reported twice.
void check_joined(const Spec& spec, const Cell& root, Diagnostics& diagnostics);

}  // namespace fitup::spec

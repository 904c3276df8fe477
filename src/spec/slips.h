#pragma once
// What is legal but hardly meant: keys that change nothing. Warnings, never errors.

#include "fitup/spec.h"
#include "spec/cell.h"

namespace fitup::spec {

/// Only values that are sound are looked at.
void report_slips(const Spec& spec, const Cell& root, Diagnostics& diagnostics);

}  // namespace fitup::spec

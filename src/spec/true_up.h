#pragma once
// The coat of the steel and the frame as it was measured: from checked cells, and whether they are whole.

#include "fitup/spec.h"
#include "spec/cell.h"

namespace fitup::spec {

[[nodiscard]] FinishSpec finish(const Cell& cell);

/// Fills BoxSpec::as_built of the boxes that are named.
void read_as_built(const Cell& root, Spec& spec);

/// Errors for a box that is not there, for what a face lacks and for what is no measure of it; warnings for what has no
/// effect.
void check_true_up(const Spec& spec, const Cell& root, Diagnostics& diagnostics);

/// The key of a face's measure: "width_bottom" for the front's `across_low`.
struct MeasureKeys {
  std::string_view across_low, across_high, up_low, up_high;
};
[[nodiscard]] MeasureKeys measure_keys(Face face);

}  // namespace fitup::spec

#pragma once
// Rows of screws by rule keep clear of what is known only once all of the box stands: a box is planned again with the
// gaps that a trial of it has found. Private to the plan.

#include <string>
#include <vector>

#include "plan/build.h"

namespace fitup::plan {

/// What a draft's instance fills, as the box around it.
[[nodiscard]] Box3 box_around(const Draft& draft, InstanceId id);

/// The name of the row that a screw is of: its own without its number.
[[nodiscard]] std::string row_of(const Draft& draft, InstanceId screw);

/// The same once more changes nothing.
void add_row_gap(Build& build, const RowGap& wanted);
/// No middle of that screw's row may lie between these: along the row, in the frame.
void wish_for_gap(Build& build, InstanceId screw, double from, double to);

/// The row's places moved out of its gaps: symmetrical about its middle, no two nearer than `apart_mm`, no step larger
/// than `spacing_mm`, with as few more screws as that takes; between the ends of what was by rule. Where gaps leave no
/// such row, pieces between them; where they leave nothing, the row as it was.
[[nodiscard]] std::vector<double> out_of_gaps(const std::vector<RowGap>& gaps, const std::string& row,
                                              const std::vector<double>& by_rule, double apart_mm, double spacing_mm);

}  // namespace fitup::plan

#pragma once
// Which part of one job stands for which of the other.

#include <vector>

#include "compare/comparison.h"

namespace fitup::compare {

/// Parts that are not the same on both sides, in no order. Lines of one role and shape on one side count as one.
[[nodiscard]] std::vector<Change> changes_between(const std::vector<output::PartLine>& a,
                                                  const std::vector<output::PartLine>& b);

/// How unlike two parts of one role are: 0 for what differs in its holes alone. The same both ways.
[[nodiscard]] double unlikeness(const output::PartLine& a, const output::PartLine& b);

}  // namespace fitup::compare

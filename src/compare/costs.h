#pragma once
// What a side costs, of that alone which has a price.

#include <vector>

#include "compare/comparison.h"

namespace fitup::compare {

/// A row for each kind of price that one of the two gives, then their sum; no row where neither gives any. A side
/// without prices of its own is reckoned with the other's.
[[nodiscard]] std::vector<Total> costs_of(const Side& a, const Side& b);

}  // namespace fitup::compare

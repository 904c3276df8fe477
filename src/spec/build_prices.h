#pragma once
// Prices from checked cells.

#include <optional>

#include "fitup/prices.h"
#include "spec/cell.h"

namespace fitup::spec {

/// `units`: of the spec, which say whether a price is for a kilogram and a metre, or for a pound and a foot.
[[nodiscard]] std::optional<Prices> build_prices(const Cell* cell, UnitSystem units);

}  // namespace fitup::spec

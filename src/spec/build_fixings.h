#pragma once
// Screws, the items' own holes and earth studs: from checked cells.

#include <optional>
#include <vector>

#include "spec/cell.h"

namespace fitup::spec {

/// None where the table is absent.
[[nodiscard]] std::optional<ItemMountsSpec> item_mounts(const Cell* cell);

/// Of a face's screws: what a nut strip measures, and the places that are given.
void read_strip_and_places(const Cell& screws, ScrewSpec& out);

[[nodiscard]] std::vector<EarthSpec> earth_studs(const Cell* cell);

/// Reports what of these keys does not go together.
void check_fixings(const Spec& spec, const Cell& root, Diagnostics& diagnostics);

}  // namespace fitup::spec

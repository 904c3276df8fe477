#pragma once
// Where a rod plate stands, known from the items alone. Private to the plan.

#include <optional>
#include <vector>

#include "plan/build.h"

namespace fitup::plan {

/// Numbers of the rods that the front's or the back's rod plate serves: of the items in the line that is next to it.
[[nodiscard]] std::vector<std::size_t> rods_served(const Build& build, Side depth);

/// Along Y, where the inner nut of that rod ends: what the plate would lie on.
[[nodiscard]] double rod_seat_mm(const Build& build, std::size_t rod, Side depth);

/// Along Y, the inner face of the front's or the back's rod plate, on the nuts that stand out most; none where that end
/// has no rod plate.
[[nodiscard]] std::optional<double> rod_plate_inner_mm(const Build& build, Side depth);

}  // namespace fitup::plan

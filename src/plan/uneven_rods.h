#pragma once
// What to choose where rods end at heights that one flat rod plate cannot lie on. Private to the plan.

#include <string>

#include "plan/build.h"

namespace fitup::plan {

/// Rod number `rod` stands off the plate, which lies on the inner nut of rod number `on`, by less than a second nut
/// needs: what differs between them, and the keys of the spec that mend it in one step. No item is asked to have
/// another size than it was measured to have.
[[nodiscard]] std::string remedy_of_uneven(const Build& build, std::size_t rod, std::size_t on, Side depth);

}  // namespace fitup::plan

#pragma once
// The sheet of a box of plates as a space frame of panels: walls, floor, top, rings, ribs, doublers, gussets, rails and
// welded rod plates as cut, in the cells of a grid, each along its middle plane, rigidly joined where their seams lie; a
// base ring of angle as beams along their centroids, rigidly linked to the plates' nodes on its seams. What is bolted on
// stiffens nothing; tabs and slots carry nothing by themselves; what plates bear on each other beside a seam is nothing.

#include <optional>

#include "loads/frame_model.h"

namespace fitup::loads {

/// Nothing where no plates are welded together.
[[nodiscard]] std::optional<FrameModel> plate_model(const Plan& plan, const Seams& seams);

}  // namespace fitup::loads

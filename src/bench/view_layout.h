#pragma once
// Puts a part's views on a page: at the largest scale of ISO 5455 that leaves room for dimensions and words.

#include "bench/dimension.h"
#include "bench/part_views.h"
#include "bench/type.h"
#include "output/units.h"

namespace fitup::bench {

/// Into `room` of the page, whose scale it sets. False where the words do not all find room: then a larger sheet or
/// more room is wanted, and the page is to be thrown away.
[[nodiscard]] bool draw_views(Page& page, const Box2& room, const PartViews& views, const std::vector<FeatureRow>& rows,
                              const Type& type, const output::PaperUnits& units);

}  // namespace fitup::bench

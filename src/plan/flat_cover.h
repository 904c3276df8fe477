#pragma once
// Flat covers that lie on the frame itself. Private to the plan.

#include <vector>

#include "plan/build.h"

namespace fitup::plan {

/// A cover of the left, the right, the top or the bottom that fills `sheet`, screwed into the bars and legs under it:
/// along the first axis of the face from end to end, along the second between those rows. Rows leave room for bosses;
/// a rail that lies where a screw comes through gets a hole.
void add_flat_cover(Build& build, Face face, const Box3& sheet, const std::vector<Host>& rails);

}  // namespace fitup::plan

#pragma once
// What the marks on a flat part cannot say, in words for a list.

#include <string>

#include "fitup/plan.h"
#include "output/units.h"

namespace fitup::output {

/// "marked on one side: has a hand, PLT01B is the other" where the list has its mirror image too, "cut like
/// PLT01B, marked otherwise" where it has the same cut with other marks; "on the side without
/// marks DBL01 20 to 60 from the left and 5 to 45 mm from below" of what is welded on there, in the coordinates of
/// its file; "no room to mark DBL01" of words that found none. Joined by "; "; empty of a part that is not marked.
/// Precondition: name_faces(plan) has been called since its marks are final.
[[nodiscard]] std::string mark_note(const Plan& plan, PartId id, const PaperUnits& units);

}  // namespace fitup::output

#pragma once
// What of a box the spec does not state and follows as another than its default. Private to the plan.

#include "plan/build.h"

namespace fitup::plan {

/// Keeps in the draft what the planned box has otherwise than `stated`, the box as it was read: the
/// clearances that its outer size leaves, how its rows of screws are held, its flanges' depth, where its landings lie
/// and how wide they are.
void note_followed(Build& build, const BoxSpec& stated);

/// What holds an item's ears was not stated, and a thread does not hold there.
void note_fixing_of_item(Build& build, const std::string& key, ScrewFixing fixing);

/// What hangs below asks for thicker feet than the default.
void note_feet_thickness(Build& build, Length thickness, std::string why);

}  // namespace fitup::plan

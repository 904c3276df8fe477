#pragma once
// Plates that close a face from inside: behind the members' legs, or between the members. Private to the plan.

#include <string>

#include "plan/build.h"

namespace fitup::plan {

/// Keeps rails off plates that stand behind the legs; asked once the frame stands.
void leave_room_for_plates(Build& build);

/// The plate of a face whose `set` is not outside; or says why it cannot be there.
void add_plate_set_in(Build& build, Face face, const std::string& mark);

/// Holes in plates that stand behind legs, where screws come through these; asked once the covers are on.
void clear_plates_set_in(Build& build);

}  // namespace fitup::plan

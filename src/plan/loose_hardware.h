#pragma once
// What is bought and stands nowhere in the model: bolts to the ground and the wall, drill bushes. Private to the plan.

#include "plan/build.h"

namespace fitup::plan {

/// The bolts of feet or lugs, each with two washers and a nut: as long as the piece and its grip ask for.
void list_mount_bolts(Build& build, const MountSpec& spec, const std::string& noun, double piece_mm, int count);

/// Of stainless steel, one and a half diameters long, for threads in an aluminium alloy.
void list_wire_inserts(Build& build, const Thread& thread, int count);

/// Pressed into a printed drill guide.
void list_drill_bushes(Build& build, double outside_mm, double drill_mm, int count);

/// Says which cover's nuts nobody can hold once every other face is closed. True if there is none.
bool check_loose_nuts(Build& build);

}  // namespace fitup::plan

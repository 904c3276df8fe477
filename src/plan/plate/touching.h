#pragma once
// What lies against the shell's plates without being joined to each of them. Private to the plan.

#include "plan/build.h"

namespace fitup::plan {

/// States that landings, covers and feet of a box of plates may touch the plates that they lie against: ends of tabs
/// come out where only one of two plates is welded or screwed to them.
void let_touch(Build& build);

}  // namespace fitup::plan

#pragma once
// What a plate that closes a face from inside takes of the free inside. Private to the stages.

#include "fitup/spec.h"

namespace fitup {

/// Whether the box stands in rings of tube.
[[nodiscard]] bool on_tubes(const Spec& spec, const BoxSpec& box);

/// How thick a plate set inside is that stands in the inside, so that clearances are counted from it: behind the members'
/// legs of an angle frame. Between tubes it stands in the walls, and only at the top, where the inside reaches as high as
/// the tubes, takes of it. 0 where there is none, and in a box of plates.
[[nodiscard]] double set_in_mm(const Spec& spec, const BoxSpec& box, Face face);

}  // namespace fitup

#pragma once
// Values of a spec that make members and welded sheet of a frame that fails stronger.

#include <vector>

#include "remedies/knobs.h"

namespace fitup::remedies {

/// Of what the finding names: heavier sections of its members, thicker sheet of what the shop has. Only where it fails:
/// what is marginal yields a little as the frame bends along, and more steel is the user's choice.
[[nodiscard]] std::vector<Knob> frame_knobs(const Concerned& what, const BoxSpec& box, const Spec& spec);

/// Of a frame's joints whose seams carry too much: gussets where there are none, thicker uprights of the same width,
/// and uprights of the rings' own angle in place of flat bar.
[[nodiscard]] std::vector<Knob> stiffer_frames(const Concerned& what, const BoxSpec& box, const Spec& spec);

}  // namespace fitup::remedies

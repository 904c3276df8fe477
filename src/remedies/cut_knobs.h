#pragma once
// Values of a spec that may bring a flat part within what the shop cuts.

#include <vector>

#include "remedies/knobs.h"

namespace fitup::remedies {

[[nodiscard]] std::vector<Knob> cut_knobs(const Concerned& what, const Spec& spec);

/// A key that takes a thickness: what the shop has of the material, thicker than it is now.
[[nodiscard]] Knob thicker_sheet(std::string key, double now_mm, const std::string& material, const Spec& spec);

}  // namespace fitup::remedies

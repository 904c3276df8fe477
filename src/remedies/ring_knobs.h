#pragma once
// Values of a spec that make the ring of angle under a box of plates stronger.

#include <optional>
#include <string>
#include <vector>

#include "remedies/knobs.h"

namespace fitup::remedies {

/// A key that takes a section: those of its shape and table with no smaller side and no thinner, the lightest first, of
/// flats those of its width; none where the tables hold none.
[[nodiscard]] std::optional<Knob> heavier_sections(const std::string& key, const Section& now);

/// Corners whose seams lie around the section in place of butted ones, where seams are the matter; then angles of the
/// table with no smaller leg and no thinner, the lightest first. None of a box without a ring.
[[nodiscard]] std::vector<Knob> ring_knobs(const Concerned& what, const BoxSpec& box, const Spec& spec);

}  // namespace fitup::remedies

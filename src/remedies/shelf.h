#pragma once
// What may stand in place of a box's section, rails and sheets: ways of building it, as values of --set.

#include <string>
#include <vector>

#include "fitup/spec.h"

namespace fitup::remedies {

/// Most ways that one box is tried in.
inline constexpr std::size_t most_ways = 192;

struct ShelfOptions {
  bool heavier_too = false;  // also what is thicker than what stands in the spec, and covers along with the plates
  bool plates_too = true;  // welded plates as well; not where a frame rests on them in a way that nothing reckons with
};
/// Sections, rails and welded plates, each with each, but the way that stands in the spec.
[[nodiscard]] std::vector<std::vector<Override>> ways_of_building(const Spec& spec, const BoxSpec& box,
                                                                  ShelfOptions options);

/// Thinner covers alone, all at once: what is screwed on carries nothing of the frame.
[[nodiscard]] std::vector<std::vector<Override>> covers_of(const Spec& spec, const BoxSpec& box);

/// Other thicknesses of its rod plates; none where nothing that the spec states pulls at them (loads.thrown along their
/// rods).
[[nodiscard]] std::vector<std::vector<Override>> rod_plates_of(const Spec& spec, const BoxSpec& box,
                                                               ShelfOptions options);

}  // namespace fitup::remedies

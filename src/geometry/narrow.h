#pragma once
// Where a plate is narrow: holes, slots and webs as a cutter measures them.
//
//   hole  a round cut-out: its diameter
//   slot  void between two edges that face each other across it, and the least width of any cut-out that is not round
//   web   material between two edges that face each other across it: between two cut-outs, between a cut-out and the
//         outline, or a neck of one outline
//
// Two edges face each other where the distance between them cannot be made less by moving either point along its
// outline a little: so a chamfer or a fillet, whose two ends are near each other round a corner, is neither slot nor
// web. Nor are the two ends of one arc, as of a relief in a corner: that is a matter of its radius.

#include <cstddef>
#include <vector>

#include "fitup/geometry.h"

namespace fitup::geometry {

enum class NarrowKind { hole, slot, web };

/// `loop` and `other`: 0 the outline, then the holes from 1; the same for a hole or a slot.
struct NarrowPlace {
  NarrowKind kind = NarrowKind::hole;
  double width_mm = 0;
  Vec2 at;  // the middle of the narrow place
  std::size_t loop = 0;
  std::size_t other = 0;
};

struct NarrowSearch {
  std::vector<NarrowPlace> places;  // ascending; those beside each other are one, the narrowest
  bool complete = true;             // false: there were too many edges near each other to look at them all
  bool more = false;                // there are more of one kind and pair of loops than are told apart
};

/// Of one kind and pair of loops so many are told apart, the narrowest.
inline constexpr std::size_t most_narrow_of_a_pair = 200;

/// Everything up to that width. The loops' senses do not matter; they are simple and disjoint.
[[nodiscard]] NarrowSearch narrow_places(const Profile& profile, double up_to_mm, std::size_t most_looks = 20'000'000);

/// The circle that a loop of arcs is; none for another.
[[nodiscard]] std::optional<Circle> round_loop(const Loop& loop);

/// The least distance between two parallel lines that the loop lies between.
[[nodiscard]] double least_width_mm(const Loop& loop);

/// A corner at which the void reaches into the material: radius 0 where it is sharp. Round holes are none.
struct InnerCorner {
  double radius_mm = 0;
  Vec2 at;
  std::size_t loop = 0;
};
/// Ascending by radius.
[[nodiscard]] std::vector<InnerCorner> inner_corners(const Profile& profile);

}  // namespace fitup::geometry

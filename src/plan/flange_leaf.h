#pragma once
// What of a flange can be notched: its strip, its bent-up side, or a leg of its angle, each as the rectangle that it is
// before. Private to the plan.

#include <string>
#include <vector>

#include "plan/build.h"

namespace fitup::plan {

struct FlangeLeaf {
  enum class Kind { strip, bent, leg_a, leg_b };
  InstanceId id = 0;
  Kind kind = Kind::strip;
  std::size_t bend = 0;  // of what is bent: which of its bends
  Face beside = Face::front;
  /// In the frame: where the edge begins at which it is held, that edge, and away from it.
  Vec3 corner;
  Vec3 along;
  Vec3 rise;
  double length_mm = 0;
  double height_mm = 0;
  double thickness_mm = 0;
  double least_mm = 0;  // of its height that must stay everywhere
  std::string why;      // that much
  Box3 slab;            // all of it in the frame
};

/// Those of the flanged cover that closes a face.
[[nodiscard]] std::vector<FlangeLeaf> leaves_of(const Build& build, Face face);

/// What of it a box in the frame takes: x along it, y from the edge at which it is held.
[[nodiscard]] Box2 on_leaf(const FlangeLeaf& leaf, const Box3& box);

/// Cuts these rectangles out of it: of what is sheet with rounded corners where a cutter turns in, of a leg of an angle
/// from its toe. Returns why not where it cannot be done; then nothing is cut.
[[nodiscard]] std::string cut_leaf(Build& build, const FlangeLeaf& leaf, const std::vector<Box2>& cuts);

}  // namespace fitup::plan

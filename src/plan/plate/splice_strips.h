#pragma once
// Strips behind the joint of two pieces of a plate: where there is room for them. Private to the plate build.

#include <optional>
#include <utility>
#include <vector>

#include "plan/draft.h"
#include "plan/plate/joints.h"

namespace fitup::plan::plate {

/// A line across a flat part: where its own x is `at`, or its own y.
struct CutLine {
  bool upright = false;  // x
  double at = 0;
};

/// Counted along the line: along y of an upright one, else along -x.
struct Strips {
  bool above = true;  // on the face at z = thickness
  std::vector<Stretch> along;
};

/// On the side towards the middle of the part's box, else on the other: clear of all that stands there and of beads
/// beside it. None unless each of the spans, where there is material on the line, has a strip behind half of it.
/// `boxes`: of all prisms of the draft, by instance.
[[nodiscard]] std::optional<Strips> strips_behind(const Draft& draft, const std::vector<std::vector<Box3>>& boxes,
                                                  InstanceId id, const CutLine& line,
                                                  const std::vector<Stretch>& spans);

/// The strip's low and high corner in the part's own plane; it is as thick as the part.
[[nodiscard]] std::pair<Vec2, Vec2> strip_corners(double thickness_mm, const CutLine& line, const Stretch& strip);

/// Of each outer prism of a part that stands so.
[[nodiscard]] std::vector<Box3> boxes_of(const Part& part, const Pose& pose);

/// Whether they come nearer to each other than that, or overlap.
[[nodiscard]] bool meets(const Box3& a, const Box3& b, double by_mm);

}  // namespace fitup::plan::plate

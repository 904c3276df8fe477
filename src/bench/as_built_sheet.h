#pragma once
// What to measure on the welded frame, with a blank for each, in the order and names of [as_built].

#include "bench/type.h"
#include "fitup/job.h"
#include "fitup/plan.h"

namespace fitup::bench {

/// One measure of a face: its key's last word, what is planned, and between which corners it is taken (0 or 1 along the
/// face's first and second axis).
struct Measure {
  std::string key;
  double planned_mm = 0;
  Vec2 from;
  Vec2 to;
};

/// Of the front, back, left, right, top or bottom of a frame.
struct MeasuredSide {
  std::string face;
  std::vector<Measure> measures;
};
[[nodiscard]] std::vector<MeasuredSide> measured_sides(Vec3 frame_size);

[[nodiscard]] Paper as_built_paper(const Plan& plan, const JobInfo& info, const Type& type);

}  // namespace fitup::bench

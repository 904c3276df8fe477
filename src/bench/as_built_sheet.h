#pragma once
// What to measure on the welded frame, with a blank for each, in the order and names of [as_built].

#include <optional>
#include <string>
#include <vector>

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

/// How far either diagonal of a face may be off before a flanged cover on it, which is square, no longer follows: a
/// face that leans by d over its height has diagonals that are off by width d / diagonal, and the gap under the flange
/// grows by d. None where no flanged cover laps over that face.
[[nodiscard]] std::optional<double> cover_follows_mm(const Plan& plan, const std::string& box,
                                                     const MeasuredSide& side);

/// The faces round which a landing is welded that stands out of the frame, in the order of the plan: what is measured
/// there is the frame alone.
[[nodiscard]] std::vector<std::string> ringed_faces(const Plan& plan, const PlacedFrame& frame);

[[nodiscard]] Paper as_built_paper(const Plan& plan, const JobInfo& info, const Type& type);

}  // namespace fitup::bench

#pragma once
// What the whole comes to: size with everything on, and mass.

#include <array>
#include <map>
#include <string>
#include <vector>

#include "fitup/plan.h"
#include "output/units.h"

namespace fitup::output {

struct Totals {
  double made_kg = 0;  // what is cut and sawn
  double all_kg = 0;   // with items and bought parts
  Box3 overall;        // frame coordinates; printed aids are no part of the enclosure
};

/// Sizes for programs, to 0.001 mm.
struct FrameSize {
  std::string box;  // empty where the plan names none
  std::array<double, 3> size_mm{};
  std::array<double, 3> corner_mm{};  // from the first frame's front-left-bottom corner
  bool operator==(const FrameSize&) const = default;
};
struct JobSizes {
  std::vector<FrameSize> frames;  // the first box's first
  std::array<double, 3> overall_mm{};
  bool operator==(const JobSizes&) const = default;
};
[[nodiscard]] JobSizes job_sizes_of(const Plan& plan);

/// "frame 984 x 518 x 329 mm", and the frames of further boxes after it: "main frame ..., lower frame ...".
[[nodiscard]] std::string frames_in_words(const Plan& plan, const PaperUnits& units);

/// The space that the frames of all boxes take.
[[nodiscard]] Box3 all_frames(const Plan& plan);

/// Where lifting eyes are no parts of the model: how many are bought of each thread, one for each lift point.
[[nodiscard]] std::map<std::string, std::size_t> eyes_not_in_model(const Plan& plan);

[[nodiscard]] Totals totals_of(const Plan& plan);

}  // namespace fitup::output

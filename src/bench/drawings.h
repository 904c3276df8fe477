#pragma once
// One sheet a part: views to scale, dimensions that locate each feature once, material, count, mass, tolerances.

#include "bench/type.h"
#include "fitup/job.h"
#include "fitup/plan.h"
#include "output/units.h"

namespace fitup::bench {

/// What stands in the table beside a part's view: like features on one line.
struct FeatureRow {
  std::string name;              // "A1 to A12"
  std::string size;              // "drill 3.3, tap M4"
  std::string level;             // "20 from the lower edge", "leg A, 20 from the heel"
  std::vector<double> along_mm;  // from the left edge, from the start
  std::vector<Vec2> at;          // in the view, y down, in the order of `along_mm`
};
[[nodiscard]] std::vector<FeatureRow> feature_rows(const Part& part, const output::PaperUnits& units);

[[nodiscard]] Paper drawings_paper(const Plan& plan, const JobInfo& info, const Type& type);

}  // namespace fitup::bench

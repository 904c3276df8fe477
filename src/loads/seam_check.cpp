// Findings on the seams that carry loads.
// Entry: check_seams.
#include "loads/seam_check.h"

#include "loads/cover_seams.h"
#include "loads/foot_seams.h"
#include "loads/frame_seams.h"
#include "loads/seam_sizes.h"

namespace fitup::loads {

namespace {

const char* words_of(Seamed what) {
  if (what == Seamed::members) return "the frame's joints";
  return what == Seamed::rails ? "rails" : "welded plates";
}

}  // namespace

std::vector<Finding> check_seams(const Plan& plan, const Seams& seams, const Weights& weights, const FrameModel* model,
                                 const std::vector<SolvedCase>& cases) {
  std::vector<Finding> all;
  if (model != nullptr) {
    for (const auto& [kind, worst] : worst_frame_seams(plan, seams, *model, cases)) {
      if (worst.utilisation >= 0) all.push_back(finding_of(plan, worst, words_of(kind.second)));
    }
  }
  const FootSeams feet = worst_foot_seams(plan, seams, weights);
  if (feet.mounts.utilisation >= 0) all.push_back(finding_of(plan, feet.mounts, "feet and lugs"));
  if (feet.doublers.utilisation >= 0) all.push_back(finding_of(plan, feet.doublers, "doublers under feet and lugs"));
  if (auto covers = check_cover_seams(plan, seams)) all.push_back(std::move(*covers));
  for (Finding& f : check_seam_sizes(plan, seams)) all.push_back(std::move(f));
  return all;
}

}  // namespace fitup::loads

#pragma once
// Seams of one joint on one line, and what hangs together by them.

#include <functional>
#include <map>
#include <set>
#include <vector>

#include "fitup/plan.h"
#include "fitup/seams.h"

namespace fitup::loads {

/// Seams of one joint on one line, from the first to the last of them.
struct SeamRun {
  std::size_t joint = 0;
  std::vector<const Seam*> seams;
  Seam whole;  // its path alone
  /// From the beginning of its path, along it, in mm.
  [[nodiscard]] double along(Vec3 at) const;
};

/// Unit vector along a seam.
[[nodiscard]] Vec3 along_of(const Seam& seam);

/// Whether a seam lies along a line, no farther from it than that.
[[nodiscard]] bool is_on_line(const Seam& seam, const Seam& line, double within_mm);

/// Adds it to the run of its joint that it is on the line of, within that; else begins one.
void add_to_runs(std::vector<SeamRun>& runs, const Seam& seam, double within_mm);

using Joined = std::map<InstanceId, std::set<InstanceId>>;

/// Of those that count what hangs together with most of the first box.
[[nodiscard]] std::set<InstanceId> largest_piece(const Plan& plan, const Joined& joined,
                                                 const std::function<bool(InstanceId)>& counts);

}  // namespace fitup::loads

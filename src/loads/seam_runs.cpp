// Runs of seams, and the piece of the first box that they join.
// Entry: add_to_runs, largest_piece.
#include "loads/seam_runs.h"

#include <algorithm>
#include <cmath>

#include "fitup/weight.h"

namespace fitup::loads {

namespace {

void lengthen(Seam& line, const Seam& by) {
  const Vec3 along = along_of(line), from = line.from;
  double low = 0, high = norm(line.to - line.from);
  for (const Vec3 end : {by.from, by.to}) {
    low = std::min(low, dot(end - from, along));
    high = std::max(high, dot(end - from, along));
  }
  line.from = from + low * along;
  line.to = from + high * along;
}

}  // namespace

double SeamRun::along(Vec3 at) const { return dot(at - whole.from, along_of(whole)); }

Vec3 along_of(const Seam& seam) { return (1 / norm(seam.to - seam.from)) * (seam.to - seam.from); }

bool is_on_line(const Seam& seam, const Seam& line, double within_mm) {
  const Vec3 along = along_of(line);
  const Vec3 r = seam.from - line.from;
  return std::abs(dot(along_of(seam), along)) > 0.999 && norm(r - dot(r, along) * along) < within_mm;
}

void add_to_runs(std::vector<SeamRun>& runs, const Seam& seam, double within_mm) {
  for (SeamRun& run : runs) {
    if (run.joint != seam.joint || !is_on_line(seam, run.whole, within_mm)) continue;
    run.seams.push_back(&seam);
    lengthen(run.whole, seam);
    return;
  }
  SeamRun run{seam.joint, {&seam}, {}};
  run.whole.from = seam.from;
  run.whole.to = seam.to;
  runs.push_back(std::move(run));
}

std::set<InstanceId> largest_piece(const Plan& plan, const Joined& joined,
                                   const std::function<bool(InstanceId)>& counts) {
  std::set<InstanceId> seen, largest;
  std::ptrdiff_t most = 0;
  for (const auto& [start, others] : joined) {
    std::set<InstanceId> piece;
    std::vector<InstanceId> next{start};
    while (!next.empty()) {
      const InstanceId id = next.back();
      next.pop_back();
      if (!seen.insert(id).second || !counts(id)) continue;
      piece.insert(id);
      next.insert(next.end(), joined.at(id).begin(), joined.at(id).end());
    }
    const auto of_first = std::count_if(piece.begin(), piece.end(),
                                        [&](InstanceId id) { return frame_of(plan, plan.instances[id]) == 0; });
    if (of_first <= most) continue;
    most = of_first;
    largest = std::move(piece);
  }
  return largest;
}

}  // namespace fitup::loads

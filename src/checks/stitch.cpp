// Intermittent seams: which are, where their elements lie, and the beads of these.
// Entry: stitch_on, may_be_intermittent, lay_at_intervals, weld_mm, beads_of.
#include <algorithm>
#include <cmath>

#include "checks/blocked_seams.h"
#include "checks/seams.h"
#include "fitup/tolerances.h"
#include "fitup/welded_sizes.h"

namespace fitup {

std::optional<Stitch> stitch_on(double length_mm, double element_mm, double gap_mm) {
  if (element_mm <= 0 || gap_mm <= 0) return std::nullopt;
  const double fewest = std::ceil((length_mm + gap_mm - tolerance::contact_mm) / (element_mm + gap_mm));
  const double count = std::max(2.0, fewest);
  const double gap = (length_mm - count * element_mm) / (count - 1);
  if (gap < tables::least_stitch_gap_mm - tolerance::contact_mm) return std::nullopt;
  return Stitch{static_cast<std::size_t>(count), element_mm, gap};
}

double weld_mm(const Seam& seam) {
  return seam.stitch ? static_cast<double>(seam.stitch->count) * seam.stitch->element_mm : seam.length_mm;
}

namespace checks {

bool may_be_intermittent(const Seam& seam) {
  return seam.kind == SeamKind::fillet && seam.ring_diameter_mm <= 0 && seam.state != SeamState::left_free;
}

void lay_at_intervals(const Plan& plan, Seams& seams) {
  for (Seam& seam : seams.all) {
    const WeldRule& rule = weld_rule(plan, plan.joints[seam.joint]);
    if (!may_be_intermittent(seam)) continue;
    seam.stitch = stitch_on(seam.length_mm, rule.element_mm, rule.distance_mm);
  }
}

}  // namespace checks

std::vector<Bead> beads_of(const Plan& plan, const Seams& seams) {
  std::vector<Bead> beads;
  for (std::size_t i = 0; i < seams.all.size(); ++i) {
    const Seam& seam = seams.all[i];
    if (seam.state != SeamState::laid) continue;
    const Joint& joint = plan.joints[seam.joint];
    if (!seam.stitch) {
      beads.push_back({i, joint.a, joint.b, seam.bead});
      continue;
    }
    const Stitch& stitch = *seam.stitch;
    for (std::size_t e = 0; e < stitch.count; ++e) {
      const double from = static_cast<double>(e) * (stitch.element_mm + stitch.gap_mm);
      beads.push_back({i, joint.a, joint.b, checks::piece_of(seam, {from, from + stitch.element_mm}).bead});
    }
  }
  return beads;
}

}  // namespace fitup

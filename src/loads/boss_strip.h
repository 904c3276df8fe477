#pragma once
// The plate that a lift boss stands in, with the doubler under it, as the strip that bends under the eye's pull.

#include <optional>

#include "fitup/seams.h"

namespace fitup::loads {

/// How a doubler works with its plate where the plate is held. together: a bead all round keeps the two from sliding,
/// and the doubler is held there too, so that they bend as one plate of both thicknesses. side_by_side: held there, but
/// free to slide: each bends by itself. spreads: it ends before that line and only brings the load in over its width.
enum class DoublerWorks { together, side_by_side, spreads };

struct BossStrip {
  double arm_mm = 0;        // from the boss's middle to the line along which the plate is held, the nearest one
  double length_mm = 0;     // of that line that takes the moment
  double modulus_mm2 = 0;   // plastic, for each mm of it
  double elastic_mm2 = 0;   // likewise, as long as no fibre yields
  double sheared_mm = 0;    // of thickness round the boss
  InstanceId root = 0;      // what the plate is welded to there
  std::optional<InstanceId> doubler;
  DoublerWorks works = DoublerWorks::together;
};

/// What a boss of `diameter_mm` brings into `plate` spreads at 45 degrees, no farther than the line goes (common
/// practice: a point load F at the edge of a wide cantilever plate bends its root with F / 2 for each mm then; the
/// elastic solution is 0.509 F: Roark, beams of relatively great width, from memory, and plate elements in the tests).
/// Other lines that hold the plate help for nothing. Nothing where no straight seam holds the plate beside the boss.
[[nodiscard]] std::optional<BossStrip> boss_strip(const Plan& plan, const Seams& seams, const LiftPoint& point,
                                                  InstanceId plate, double diameter_mm);

}  // namespace fitup::loads

#pragma once
// The seams that the two parts of one weld joint offer, whatever else stands in the box.

#include <optional>
#include <vector>

#include "checks/placed.h"
#include "fitup/seams.h"

namespace fitup::checks {

/// How a joint is to be welded. `a` and `b` as in the joint.
struct WeldTask {
  const PlacedBody& a;
  const PlacedBody& b;
  const Joint& joint;
  double wanted_mm = 0;  // leg of a fillet
};

/// All laid, with their beads; `joint` is left at 0.
struct Offered {
  std::vector<Seam> seams;
  double round_mm = 0;  // length of the edge of the contact, all its pieces together
};

/// Where the two lie on each other, or face each other across a gap that the joint permits.
struct OutlineEdge {
  Vec3 from;
  Vec3 to;
  Vec3 out;  // unit, away from the contact
};
struct ContactOutline {
  double gap_mm = 0;
  std::vector<OutlineEdge> edges;  // straight ones
  double area_mm2 = 0;             // within them, round corners as chamfers; of round holes nothing is taken away
};
[[nodiscard]] std::vector<ContactOutline> contact_outlines(const WeldTask& task);

/// None where no faces of the two meet across an axis.
[[nodiscard]] std::optional<Offered> straight_seams(const WeldTask& task);

/// Round a boss in a round hole of the other part: a ring at each end of the hole beyond which it goes on or with which
/// it is flush. None where there is no such pair, no ring where the parts leave no room for it all round.
[[nodiscard]] std::optional<Offered> ring_seams(const WeldTask& task);

/// Along the cut of two mitred ends of one section that face each other, over each face that both show; none where the
/// joint is no such one.
[[nodiscard]] std::optional<Offered> mitre_seams(const Plan& plan, const Joint& joint, double wanted_mm);

/// A bead shorter than this many of its legs is not laid where the joint has a longer one: it would be all start and
/// end (common practice).
inline constexpr double least_lengths = 2;

}  // namespace fitup::checks

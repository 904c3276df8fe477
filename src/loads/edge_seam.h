#pragma once
// A seam along the edge of sheet: the force that goes through it, and what bends the sheet about the seam's line. By the
// simplified method of EN 1993-1-8, 4.5.3.3: however the stresses of a throat point, they add up as one resultant.

#include <optional>
#include <string>

#include "loads/seam_group.h"

namespace fitup::loads {

/// What is a lever against bending. lines: seams apart from each other, as fillets on both sides of the sheet. bearing:
/// the seam pulls, and the parts press on each other beside it. throat: nothing bears on the side that is pressed, so
/// that the root opens and the throat itself bends, plastic (4 m / a^2 for each mm; EN 1993-1-8, 4.12, advises against
/// that: from memory).
enum class EdgeLever { lines, bearing, throat };

/// Where the parts bear on each other beside one line of seams.
struct EdgeBearing {
  Vec3 reach;  // from the line to the farthest place where they touch
  Vec3 press;  // unit: in which the other part presses on the sheet
};

struct EdgeStress {
  GroupStress by_force;    // shared evenly over all lines
  double bent_mpa = 0;     // beside it, of what bends the sheet about the lines
  double moment_nmm = 0;   // that does
  double lever_mm = 0;     // of `lines` and `bearing`
  double arm_mm = 0;       // of `lines`: J / (A r), r to the outermost: m / (A e) is what bends it
  EdgeLever lever = EdgeLever::lines;
  [[nodiscard]] double mpa() const { return by_force.mpa + bent_mpa; }
};

/// `force` and `moment_nmm` about the middle of the lines are what the seam does to the sheet. Nothing where there are no
/// lines.
[[nodiscard]] std::optional<EdgeStress> edge_stress(const std::vector<WeldLine>& lines, const EdgeBearing& bearing,
                                                    Vec3 force, Vec3 moment_nmm);

/// "By what the sheet's edge does to its seam, ...: 33 MPa of its force, 5 MPa of what bends the sheet about the seam".
[[nodiscard]] std::string words_of(const EdgeStress& edge);

/// Of the throats.
[[nodiscard]] Vec3 middle_of(const std::vector<WeldLine>& lines);

}  // namespace fitup::loads

#pragma once
// Seams that carry one force together, as lines of their throats: elastic, the parts rigid. Newtons, millimetres.

#include <optional>
#include <vector>

#include "fitup/seams.h"

namespace fitup::loads {

struct WeldLine {
  Vec3 from;
  Vec3 to;
  double throat_mm = 0;
};

/// The throat of a fillet is its leg over sqrt 2; of a cap its depth.
[[nodiscard]] double throat_mm(const Seam& seam);
/// A ring as many chords.
void add_lines(const Seam& seam, std::vector<WeldLine>& lines);

struct GroupStress {
  double mpa = 0;  // the largest resultant on a throat: what the simplified method takes for shear, however it points
  Vec3 at;
  double length_mm = 0;      // of all lines
  double area_mm2 = 0;       // of their throats
  Vec3 of_force;             // MPa at that place: F / A
  Vec3 of_moment;            // and w x r
  double not_taken_nmm = 0;  // of the moment: about the line of seams that lie on one line, which takes none
};

/// A force at a place, and a moment beside it: what the lines carry is F / A + w x r, with w such that the moment about
/// their middle is met. Nothing where there are no lines.
[[nodiscard]] std::optional<GroupStress> throat_stress(const std::vector<WeldLine>& lines, Vec3 force, Vec3 force_at,
                                                       Vec3 moment_nmm = {});

}  // namespace fitup::loads

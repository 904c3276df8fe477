#pragma once
// Seams that carry one force together, as lines of their throats: elastic, the parts rigid. Newtons, millimetres.

#include <optional>
#include <string>
#include <vector>

#include "fitup/seams.h"

namespace fitup::loads {

struct WeldLine {
  Vec3 from;
  Vec3 to;
  double throat_mm = 0;
  double share = 1;  // of an intermittent weld: the part of the line that counts
  [[nodiscard]] double weld_mm() const { return share * norm(to - from); }
  [[nodiscard]] double area_mm2() const { return throat_mm * weld_mm(); }
};

/// l / (l + e) of its elements and gaps; 1 of a continuous one. The force per unit length is multiplied by (e + l) / l
/// (EN 1993-1-8, 4.9, figure 4.7, from memory): a little less counts than is welded, for it ends with an element.
[[nodiscard]] double share_of(const Seam& seam);

/// "; of its intermittent seams ..." where seams among them are intermittent; else empty.
[[nodiscard]] std::string words_of_elements(const std::vector<WeldLine>& lines);

/// The throat of a fillet is its leg over sqrt 2; of a cap its depth.
[[nodiscard]] double throat_mm(const Seam& seam);
/// A ring as many chords.
void add_lines(const Seam& seam, std::vector<WeldLine>& lines);

struct GroupStress {
  double mpa = 0;  // the largest resultant on a throat: what the simplified method takes for shear, however it points
  Vec3 at;
  double length_mm = 0;      // of what counts of all lines
  double area_mm2 = 0;       // of their throats
  Vec3 of_force;             // MPa at that place: F / A
  Vec3 of_moment;            // and w x r
  Vec3 reach_mm;             // r: from the middle of the throats to there
  Vec3 polar_mm4;            // J about x, y and z through that middle: integral of the square of the distance from the axis
  Vec3 products_mm4;         // what J has beside them: minus the integrals of y z, z x and x y
  double not_taken_nmm = 0;  // of the moment: about the line of seams that lie on one line, which takes none
};

/// A force at a place, and a moment beside it: what the lines carry is F / A + w x r, with w such that the moment about
/// their middle is met. Nothing where there are no lines.
[[nodiscard]] std::optional<GroupStress> throat_stress(const std::vector<WeldLine>& lines, Vec3 force, Vec3 force_at,
                                                       Vec3 moment_nmm = {});

}  // namespace fitup::loads

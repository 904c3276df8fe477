#pragma once
// Where the screws of a row stand: by rule, or where the spec says. Private to the plan.

#include <string>
#include <vector>

#include "plan/build.h"

namespace fitup::plan {

/// From the frame's corner to the first hole's middle: beyond the corner's legs and the beads in it, each as wide as
/// the leg is thick, and 2 mm more for the edge of the hole (common practice).
[[nodiscard]] double clear_of_seam_mm(double leg_mm, double hole_mm);

/// A row along one edge of a face.
struct ScrewRow {
  Face face = Face::front;
  Face edge = Face::left;  // the face beside that edge
  int run = 0;             // axis
  double least = 0;        // places that are given must lie between these
  double most = 0;
  std::string name = {};  // of its screws without their number; else "front cover screw left"
};

/// Those that the spec gives for that edge, which are checked against the row's ends, each other and the largest
/// spacing; else those by rule, moved out of the gaps that a trial has found.
[[nodiscard]] std::vector<double> places_along(Build& build, const ScrewRow& row, const std::vector<double>& by_rule);

/// The same for heights that are given for the screws of a rod plate.
[[nodiscard]] std::vector<double> heights_of(Build& build, const RodPlatesSpec& plates, double least, double most,
                                             const std::vector<double>& by_rule);

}  // namespace fitup::plan

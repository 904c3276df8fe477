#pragma once
// Contours one in another: plates and their cut-outs.

#include <vector>

#include "inspect/contours.h"

namespace fitup::inspect {

/// An outline and what is cut out of it; indices into the contours.
struct Plate {
  std::size_t outer = 0;
  std::vector<std::size_t> holes;
  bool in_cut_out = false;  // it lies in a cut-out of another plate
};

struct Nesting {
  std::vector<Plate> plates;  // the largest first
  bool complete = true;       // false: there were too many contours side by side
};

/// Even-odd: what lies in an odd number of others is a cut-out of the smallest of them.
[[nodiscard]] Nesting nest(const std::vector<Contour>& contours);

[[nodiscard]] Profile profile_of(const Plate& plate, const std::vector<Contour>& contours);

}  // namespace fitup::inspect

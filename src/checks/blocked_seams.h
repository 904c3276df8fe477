#pragma once
// What is left of a seam where something stands in the way of its bead, or comes past.

#include <vector>

#include "checks/placed.h"
#include "fitup/seams.h"

namespace fitup::checks {

/// A stretch of a seam's path in which something else stands.
struct Blocked {
  Interval along;
  InstanceId by = 0;
  bool passes = false;  // it does not stand there
};

/// Ascending, apart from each other.
[[nodiscard]] std::vector<Blocked> merged(std::vector<Blocked> found);

/// Of a seam's path what lies in the box; of a ring all, since a bead that goes round part of a boss is no ring.
[[nodiscard]] Interval stretch(const Seam& seam, const Box3& box);

[[nodiscard]] Seam piece_of(const Seam& seam, Interval along);

/// The seam in pieces: laid, and where it is blocked left free, or ground flush if it is a cap. A free stretch that is
/// too short for a bead is left like the one before it.
[[nodiscard]] std::vector<Seam> around(const Seam& seam, const std::vector<Blocked>& blocked);

/// An edge that is ground flush wants a bevel first.
void bevel_where_flush(Seam& seam);

/// A bead that runs askew, in short pieces along its path.
[[nodiscard]] std::vector<Prism> in_pieces(const Prism& bead);

}  // namespace fitup::checks

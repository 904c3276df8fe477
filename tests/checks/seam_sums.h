#pragma once
// Sums over seams, for tests.

#include <vector>

#include "fitup/seams.h"

namespace fitup::test {

[[nodiscard]] inline double length_of(const std::vector<Seam>& seams, SeamKind kind, SeamState state = SeamState::laid) {
  double sum = 0;
  for (const Seam& s : seams) sum += s.kind == kind && s.state == state ? s.length_mm : 0;
  return sum;
}

}  // namespace fitup::test

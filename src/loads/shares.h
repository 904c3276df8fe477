#pragma once
// How much of a rigid load each of the points carries that it hangs from, on legs of equal length.

#include <vector>

#include "fitup/geometry.h"

namespace fitup::loads {

struct Shares {
  /// Of each point, the largest part of the weight that any pair or triple of points may give it: a rigid load on four
  /// legs hangs on three, and on two opposite ones where the centre of mass lies between them.
  std::vector<double> worst;
  std::size_t triples = 0;  // with which the load balances
  std::size_t pairs = 0;
  /// How far the centre of mass lies outside the points' hull; 0 within it. Outside, nothing balances: the load tips.
  double outside_mm = 0;
  /// Each way in which it may hang, as a share for each point: pairs and triples.
  std::vector<std::vector<double>> ways;
};

/// Plan view. One to four points (any number). On two, what hangs turns about the line between them until its centre of
/// mass is below it, however far that lies beside the line; `outside_mm` then counts along the line alone.
[[nodiscard]] Shares shares_of(const std::vector<Vec2>& points, Vec2 centre_of_mass);

}  // namespace fitup::loads

#pragma once
// Broad phase: which boxes come near each other.

#include <array>
#include <cstddef>
#include <utility>
#include <vector>

#include "fitup/geometry.h"

namespace fitup::geometry {

/// The coordinate along X (0), Y (1) or Z (2).
[[nodiscard]] double component(Vec3 v, int axis);
/// On some axis the boxes are further from each other than the band.
[[nodiscard]] bool apart(const Box3& a, const Box3& b, double band_mm);

/// Pairs (i < j) whose boxes overlap or come within the band on all three axes, ascending.
[[nodiscard]] std::vector<std::pair<std::size_t, std::size_t>> near_pairs(const std::vector<Box3>& boxes,
                                                                          double band_mm);

/// Boxes that are asked for again and again by where they are. Empty ones are near nothing.
class NearBoxes {
 public:
  explicit NearBoxes(std::vector<Box3> boxes);
  /// Indices of those that overlap the box or come within the band of it on all three axes, ascending.
  [[nodiscard]] std::vector<std::size_t> near(const Box3& box, double band_mm) const;

 private:
  static constexpr std::size_t cells_a_side = 24;
  /// From the first cell to the last that the span reaches, along one of the two axes.
  struct Cells {
    std::size_t first = 0;
    std::size_t last = 0;
  };
  [[nodiscard]] Cells cells(const Box3& box, std::size_t which, double band_mm) const;

  std::vector<Box3> boxes_;
  Box3 all_;
  std::array<int, 2> axes_{0, 1};                   // the two along which all together are longest
  std::vector<std::vector<std::size_t>> cells_;     // by place along both axes
  std::vector<std::array<std::size_t, 2>> firsts_;  // of each box, its first cell along both
};

}  // namespace fitup::geometry

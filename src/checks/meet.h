#pragma once
// Whether a body can be put so that each of its fasteners stands within its hole, and how much larger all holes would
// have to be where it cannot.
//
// A body is moved by a few small numbers q, in mm (a turn: at a radius of one turn_radius). What a fastener moves by in
// the plane of its hole is linear in them: a turn moves it by turn x arm, and drops arm x turn^2 / 2, which is 0.0001
// mm for a turn of 0.1 degree on an arm of 60 mm, a thousandth of what the holes are off. So each hole asks for a point
// in a disc (or a stadium), each level for a half space, and all q that do form a convex set: whether it is empty is
// decided by how much all holes would have to grow, with a certificate either way (a place that does, or a bound
// below).

#include <array>
#include <cstddef>
#include <span>
#include <vector>

#include "fitup/geometry.h"

namespace fitup::checks {

inline constexpr std::size_t most_freedoms = 6;
using Freedoms = std::array<double, most_freedoms>;

/// What a fastener does in the plane of its hole: u along its slot, v across.
struct Meeting {
  Freedoms u{};
  Freedoms v{};
  double clear_mm = 0;      // radial
  double half_slot_mm = 0;  // along u
};

/// row . q >= least
struct Level {
  Freedoms row{};
  double least_mm = 0;
};

class Meet {
 public:
  /// Uses the first `freedoms` of each row. `start`: a q that is strictly above all levels.
  Meet(std::size_t freedoms, std::vector<Meeting> meetings, std::vector<Level> levels, const Freedoms& start);

  /// The least growth of all radial clearances with which everything meets: negative is what is left, to `settled_mm`.
  /// `off`: of each fastener from its hole, along its u and v. A value at or below `enough` may be larger than the
  /// least, one above `hopeless` less: then it is enough, or hopeless, and no more is asked.
  [[nodiscard]] double needed_mm(std::span<const Vec2> off, double enough, double hopeless = 1e9) const;

  static constexpr double settled_mm = 1e-6;

 private:
  using Point = std::array<double, most_freedoms + 1>;  // q, then the growth
  [[nodiscard]] double at_least_mm(std::span<const Vec2> off, const Freedoms& fitted) const;
  [[nodiscard]] double worst_mm(std::span<const Vec2> off, const Freedoms& q) const;
  [[nodiscard]] Freedoms least_squares(std::span<const Vec2> off) const;
  [[nodiscard]] Freedoms above_levels(const Freedoms& wanted) const;
  [[nodiscard]] bool inside(std::span<const Vec2> off, const Point& p) const;
  void centre(std::span<const Vec2> off, double weight, Point& p, double enough) const;

  std::size_t n_;
  std::vector<Meeting> meetings_;
  std::vector<Level> levels_;
  Freedoms start_;
  double largest_mm_ = 0;                         // clearance
  std::array<Freedoms, most_freedoms> normal_{};  // inverse of the normal equations' matrix
};

}  // namespace fitup::checks

#pragma once
// A lug on a wall, on a doubler or on the wall itself, in plain numbers.

#include "checks/shapes.h"
#include "fitup/pattern.h"
#include "fitup/plan.h"
#include "fitup/seams.h"
#include "loads/flats_by_hand.h"

namespace fitup::loads::test {

inline constexpr double t = 3;

/// A wall in the plane y = 0 to 3 whose seam with the side runs up along x = 3, inside; a lug of 6 x 50 mm that laps 25
/// mm over it from the edge at x = 0, its bolt 20 mm beyond the edge, on a doubler of 3 mm or on the wall itself.
struct LugOnWall : FlatsByHand {
  InstanceId wall = add_flat(Role::wall, generated::box({0, 0}, {400, 300}), t, Pose::at({0, 3, 0}, axis::x, axis::z));
  InstanceId side = add_flat(Role::wall, generated::box({0, 0}, {300, 300}), t, Pose::at({0, 3, 0}, axis::y, axis::z));
  InstanceId lug = 0;
  InstanceId doubler = 0;
  PatternHole hole;

  explicit LugOnWall(double doubler_from_mm = -1) {
    seam(weld(wall, side, axis::x), {3, 3, 0}, {3, 3, 300});
    const bool doubled = doubler_from_mm >= 0;
    const double before = doubled ? t : 0;
    lug = add_flat(Role::lug, generated::box({0, 0}, {60, 50}), 6, Pose::at({-35, -before, 100}, axis::x, axis::z));
    if (doubled) {
      const double from = doubler_from_mm;
      doubler = add_flat(Role::doubler, generated::box({0, 0}, {40 - from, 80}), t,
                         Pose::at({from, 0, 85}, axis::x, axis::z));
      const std::size_t joint = weld(doubler, wall, axis::y);
      seam(joint, {from, 0, 85}, {from, 0, 165});
      seam(joint, {40, 0, 85}, {40, 0, 165});
      seam(joint, {from, 0, 85}, {40, 0, 85});
      seam(joint, {from, 0, 165}, {40, 0, 165});
    }
    const InstanceId under = doubled ? doubler : wall;
    seam(weld(lug, under, axis::y), {25, -before, 100}, {25, -before, 150});
    hole.plate = lug;
    hole.at = {-20, -before, 125};
    hole.along = axis::y;
    for (Part& part : plan.parts) part.material = "S235JR";
  }
};

}  // namespace fitup::loads::test

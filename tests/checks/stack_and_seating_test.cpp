// Sums of tolerances by hand, and what of a strip stays on its rail.

#include <gtest/gtest.h>

#include "checks/seating.h"
#include "checks/stack.h"

namespace fitup::checks {
namespace {

// 3-4-5 and 12-5-13: worst case and root of the sum of squares (common practice).
TEST(Stack, AddsAtWorstAndTakesTheRootOfSquaresStatistically) {
  EXPECT_DOUBLE_EQ(growth_of({3, 4}, 0).worst_mm, 7);
  EXPECT_DOUBLE_EQ(growth_of({3, 4}, 0).statistical_mm, 5);
  EXPECT_DOUBLE_EQ(growth_of({5, 12}, 2).statistical_mm, 15);
  EXPECT_DOUBLE_EQ(growth_of({5, 12}, 2).worst_mm, 19);
  EXPECT_DOUBLE_EQ(growth_of({}, 0).worst_mm, 0);
}

StripSeat seat(double strip_low, double strip_high, double rail_low, double rail_high) {
  StripSeat s;
  s.strip_low_mm = strip_low;
  s.strip_high_mm = strip_high;
  s.rail_low_mm = rail_low;
  s.rail_high_mm = rail_high;
  return s;
}

TEST(Seating, IsOfTheWorseSide) {
  EXPECT_DOUBLE_EQ(width_left_mm(seat(12, 28, 6, 46), 1.5), 16);
  EXPECT_DOUBLE_EQ(width_left_mm(seat(12, 28, 12, 52), 1.5), 14.5);
  EXPECT_DOUBLE_EQ(width_left_mm(seat(12, 28, 0, 29), 1.5), 15.5);
  EXPECT_DOUBLE_EQ(width_left_mm(seat(12, 28, 11, 27), 2), 13);  // 3 mm beyond to the right, 1 mm to the left
  EXPECT_DOUBLE_EQ(width_left_mm(seat(12, 14, 14, 30), 5), 0);
}

TEST(Seating, IsTheSameReflected) {
  for (const double off : {0.0, 0.7, 3.0}) {
    EXPECT_DOUBLE_EQ(width_left_mm(seat(12, 28, 9, 27), off), width_left_mm(seat(-28, -12, -27, -9), off));
  }
}

}  // namespace
}  // namespace fitup::checks

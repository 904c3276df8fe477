// Sums of tolerances by hand, and what of a strip stays on its rail.

#include <cmath>
#include <optional>
#include <vector>

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

/// Pieces in holes with 1 mm of play, of a row with room enough.
Plan in_holes(std::vector<StackPiece> pieces) {
  Plan plan;
  plan.parts.emplace_back();
  RowStack stack;
  stack.name = "row";
  stack.space_mm = 300;
  stack.free_mm = 100;
  for (StackPiece& piece : pieces) {
    piece.thing = plan.instances.size();
    plan.instances.emplace_back();
    stack.pieces.push_back(std::move(piece));
  }
  plan.stacks = {std::move(stack)};
  return plan;
}

StackPiece piece(std::optional<double> within, double swelling, double empty, double play) {
  return {0, 50, within, swelling, empty, play, "item.block.size"};
}

/// What is left of the play, statistically.
double left_on_holes(std::vector<StackPiece> pieces) {
  const auto findings = check_stack(in_holes(std::move(pieces)));
  EXPECT_EQ(findings.size(), 2U);
  return findings.size() == 2 ? findings[1].value.value_or(-99) : -99;
}

// Half of the first and the last, all of what is between.
TEST(Stack, FromHoleToHoleHalfOfTheEndsCounts) {
  EXPECT_NEAR(left_on_holes({piece(0.6, 0.1, 0, 1), piece(0.4, 0, 0, 1)}), 1 - (0.05 + std::hypot(0.3, 0.2)), 1e-12);
  EXPECT_NEAR(left_on_holes({piece(0.6, 0, 0, 1), piece(0.4, 0.2, 0, 0), piece(0.2, 0, 0, 1)}),
              1 - (0.2 + std::sqrt(0.3 * 0.3 + 0.4 * 0.4 + 0.1 * 0.1)), 1e-12);
  EXPECT_EQ(check_stack(in_holes({piece({}, 0, 0, 1), piece({}, 0, 0, 1)})).size(), 1U) << "none says a tolerance";
  EXPECT_EQ(check_stack(in_holes({piece(0.6, 0, 0, 1), piece(0.4, 0, 0, 0)})).size(), 1U) << "one is in no hole";
}

// Beside two of 0.5 mm (a rule or a tape, common practice) and the welded frame's own (ISO 13920-B) a clearance
// counts as it was measured: it is no thing, but what is left may be as much less.
TEST(Stack, CountsWhatAClearanceWasMeasuredWithin) {
  Plan plan = in_holes({piece({}, 0, 0, 0), piece({}, 0, 0, 0)});
  const auto left_mm = [&] { return check_stack(plan).front().value.value_or(-99); };
  const double frame = std::sqrt(std::pow(100 - left_mm(), 2) - 2 * 0.25);
  StackPiece clearance = piece(15, 0, 0, 0);
  clearance.size_mm = 0;
  plan.stacks.front().pieces.push_back(clearance);
  EXPECT_NEAR(left_mm(), 100 - std::sqrt(2 * 0.25 + frame * frame + 15 * 15), 1e-9);
  const Finding f = check_stack(plan).front();
  EXPECT_EQ(f.parts.size(), 2U);
  EXPECT_NE(f.message.find("2 things"), std::string::npos) << f.message;
  EXPECT_NE(f.message.find("what the clearances were measured within"), std::string::npos) << f.message;
}

TEST(Stack, LeavesTheFrameThatWasMeasuredToAsBuilt) {
  Plan plan = in_holes({piece({}, 0, 0, 0), piece({}, 0, 0, 0)});
  EXPECT_EQ(check_stack(plan).front().message.find("as-built"), std::string::npos);
  Fit fit;
  fit.check = "as-built";
  plan.fits.push_back(fit);
  EXPECT_NE(check_stack(plan).front().message.find("as drawn: what is left in the frame as it was measured"),
            std::string::npos);
}

// A gap beside those in holes takes nothing up, nor does one that is beyond the tightest pair.
TEST(Stack, OnlyGapsBetweenTakeTheGrowthUp) {
  EXPECT_NEAR(left_on_holes({piece(0.6, 0, 0, 1), piece(0.6, 0, 0.2, 1)}), 1 - (std::sqrt(2 * 0.3 * 0.3) - 0.2), 1e-12);
  EXPECT_NEAR(left_on_holes({piece(0.6, 0, 0, 1), piece(0.6, 0, 0, 1), piece(0.6, 0, 30, 0)}),
              1 - std::sqrt(2 * 0.3 * 0.3), 1e-12);
  EXPECT_NEAR(left_on_holes({piece(0.6, 0, 0, 1), piece(0.6, 0, 0, 1), piece(0.6, 0, 30, 1)}),
              1 - std::sqrt(2 * 0.3 * 0.3), 1e-12);
  EXPECT_NEAR(left_on_holes({piece(9, 0, 0, 0), piece(0.6, 0, 30, 1), piece(0.6, 0, 0, 1)}),
              1 - std::sqrt(2 * 0.3 * 0.3), 1e-12)
      << "what stands before the first in holes is not between";
}

// Of two plays the smaller.
TEST(Stack, TheTighterOfTwoHolesDecides) {
  EXPECT_NEAR(left_on_holes({piece(0.6, 0, 0, 1), piece(0.6, 0, 0, 0.4)}), 0.4 - std::sqrt(2 * 0.3 * 0.3), 1e-12);
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

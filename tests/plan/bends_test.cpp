// Bends against published examples, and the bent body against its flat pattern in closed form.
#include "plan/bends.h"

#include <gtest/gtest.h>

#include <cmath>

#include "fitup/geometry.h"
#include "fitup/plan.h"

namespace fitup::plan {
namespace {

// Compensation of DIN 6935 for a right angle: what the flat is shorter than the sum of the outside lengths.
double compensation_mm(double radius_mm, double thickness_mm) {
  const double allowance = bend_allowance_mm(90, radius_mm, din_6935_k(radius_mm, thickness_mm), thickness_mm);
  return 2 * (radius_mm + thickness_mm) - allowance;
}

// Groover, Fundamentals of Modern Manufacturing, example 20.2 (from memory): t 3.20, R 4.75, 60 degrees, K 0.33.
TEST(Bends, have_the_allowance_and_the_blank_of_a_textbook_example) {
  const double allowance = bend_allowance_mm(60, 4.75, 0.33, 3.20);
  EXPECT_NEAR(allowance, 6.08, 1e-3);
  EXPECT_NEAR(38 + allowance + 25, 69.08, 1e-3);
}

// Tabellenbuch Metall (from memory): r 4, s 2, sides 25, 20 and 15; v = 4.5 rounded and L = 51.
TEST(Bends, have_the_flat_length_of_a_handbook_example_by_DIN_6935) {
  EXPECT_NEAR(compensation_mm(4, 2), 4.5, 0.05);
  EXPECT_NEAR(25 + 20 + 15 - 2 * compensation_mm(4, 2), 51, 0.1);
}

struct Handbook {
  double radius_mm;
  double thickness_mm;
  double compensation_mm;
};

class Compensation : public testing::TestWithParam<Handbook> {};

// Rounded values of Tabellenbuch Metall for right angles (from memory).
TEST_P(Compensation, is_what_a_handbook_prints) {
  const Handbook& row = GetParam();
  EXPECT_NEAR(compensation_mm(row.radius_mm, row.thickness_mm), row.compensation_mm, 0.05);
}

INSTANTIATE_TEST_SUITE_P(Bends, Compensation,
                         testing::Values(Handbook{1, 1, 1.9}, Handbook{2.5, 1, 2.4}, Handbook{4, 2, 4.5}));

TEST(Bends, of_a_large_radius_have_their_neutral_axis_in_the_middle) {
  EXPECT_DOUBLE_EQ(din_6935_k(10.1, 2), 0.5);
  EXPECT_NEAR(din_6935_k(2, 2), 0.325, 1e-12);
}

// 100 x 60 of sheet 2 thick with a flange at the low y edge, bent up or down with radius 3.
Flat bent_sheet(bool up, double k) {
  Flat flat;
  flat.thickness_mm = 2;
  const double zone = bend_allowance_mm(90, 3, k, 2);
  flat.profile.outer = Loop::rectangle({0, -zone - 20}, {100, 60});
  flat.bends.push_back({{0, -zone / 2}, {100, -zone / 2}, zone, 3, up});
  return flat;
}

class EitherWay : public testing::TestWithParam<bool> {};

TEST_P(EitherWay, the_bent_body_is_the_pattern_but_for_the_known_amount) {
  for (const double k : {0.33, 0.5, din_6935_k(3, 2)}) {
    Part part;
    part.form = bent_sheet(GetParam(), k);
    const auto& flat = std::get<Flat>(part.form);
    // The zone is as long as the neutral axis, the body as long as its middle: L pi/2 t^2 (k - 1/2).
    const double known = 100 * M_PI / 2 * 2 * 2 * (k - 0.5);
    EXPECT_NEAR(flat.profile.area_mm2() * 2 - volume_mm3(part), known, 1e-9) << k;
  }
}

TEST_P(EitherWay, the_flange_stands_where_it_was_bent_to) {
  const bool up = GetParam();
  Box3 all;
  for (const Prism& prism : bent_prisms(bent_sheet(up, 0.4))) all.add(prism.bounds());
  // Inside radius and thickness out from where the sheet is flat; its flat length beyond the radius.
  EXPECT_NEAR(all.low.y, -5, 1e-9);
  EXPECT_NEAR(all.high.y, 60, 1e-9);
  EXPECT_NEAR(up ? all.high.z : -all.low.z, up ? 2 + 3 + 20 : 3 + 20, 1e-9);
  EXPECT_NEAR(up ? all.low.z : all.high.z, up ? 0 : 2, 1e-9);
}

TEST_P(EitherWay, a_hole_through_the_flange_lies_as_far_along_the_pattern) {
  const bool up = GetParam();
  const Flat flat = bent_sheet(up, 0.4);
  const double zone = flat.bends.front().zone_mm;
  const double rise = 12;  // beyond the radius
  const auto at = in_pattern(flat, {30, -5, up ? 2 + 3 + rise : -3 - rise}, axis::y);
  ASSERT_TRUE(at);
  EXPECT_NEAR(at->x, 30, 1e-9);
  EXPECT_NEAR(at->y, -zone - rise, 1e-9);
  EXPECT_NEAR(*from_bends_mm(flat, *at), rise, 1e-9);
  EXPECT_FALSE(in_pattern(flat, {30, -5, up ? 20.0 : -20.0}, axis::x));
}

INSTANTIATE_TEST_SUITE_P(Bends, EitherWay, testing::Bool());

// Turned over it is the same part; its mirror image is not, if it has a hole that tells them apart.
TEST(Bends, have_a_hand) {
  const auto with_hole = [](Vec2 at, bool up) {
    Part part;
    Flat flat = bent_sheet(up, 0.4);
    flat.profile.holes.push_back(Loop::circle(at, 3));
    part.form = flat;
    return shape_key(part);
  };
  EXPECT_NE(with_hole({20, 20}, true), with_hole({80, 20}, true));
  EXPECT_EQ(with_hole({20, 20}, true), with_hole({80, 20}, false));
}

// 6 t at 2 mm: 0.7 of 12 is more than 2 t + r; 8 t at 4 mm; a large radius decides.
TEST(Bends, need_a_flange_that_lies_on_the_die) {
  EXPECT_NEAR(least_flange_mm(2, 2), 8.4, 1e-9);
  EXPECT_NEAR(least_flange_mm(4, 4), 22.4, 1e-9);
  EXPECT_NEAR(least_flange_mm(20, 2), 24, 1e-9);
}

}  // namespace
}  // namespace fitup::plan

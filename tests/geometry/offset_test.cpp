// Offset outlines against closed forms: areas and lengths of offsets (Steiner's formula for convex outlines), and where
// the corners of a few shapes come to stand, worked out by hand.
#include "geometry/offset.h"

#include <gtest/gtest.h>

#include <cmath>

namespace fitup::geometry {
namespace {

constexpr double tight = 1e-9;

void expect_near(Vec2 at, Vec2 wanted) {
  EXPECT_NEAR(at.x, wanted.x, tight);
  EXPECT_NEAR(at.y, wanted.y, tight);
}

TEST(Offset, of_a_convex_outline_adds_its_length_times_the_way_and_a_circle) {
  const double by = 0.15;
  for (const Loop& loop : {Loop::rectangle({0, 0}, {40, 25}), Loop::hexagon({3, 4}, 17), Loop::circle({1, 2}, 6),
                           Loop::rounded_rectangle({-5, -5}, {30, 12}, 3), Loop::polygon({{0, 0}, {30, 0}, {4, 11}})}) {
    const auto grown = offset(loop, by);
    ASSERT_TRUE(grown);
    EXPECT_NEAR(grown->area_mm2(), loop.area_mm2() + loop.perimeter_mm() * by + M_PI * by * by, tight);
    EXPECT_NEAR(grown->perimeter_mm(), loop.perimeter_mm() + 2 * M_PI * by, tight);
  }
}

TEST(Offset, of_a_rectangular_cut_out_is_a_smaller_rectangle_with_sharp_corners) {
  const auto smaller = offset(Loop::rectangle({10, 20}, {50, 30}), -0.2);
  ASSERT_TRUE(smaller);
  ASSERT_EQ(smaller->vertices.size(), 4U);
  expect_near(smaller->vertices[0].at, {10.2, 20.2});
  expect_near(smaller->vertices[2].at, {49.8, 29.8});
}

TEST(Offset, of_a_round_hole_is_one_of_a_smaller_radius) {
  const auto smaller = offset(Loop::circle({7, 8}, 2.25), -0.1);
  ASSERT_TRUE(smaller);
  const auto circle = smaller->as_circle();
  ASSERT_TRUE(circle);
  EXPECT_NEAR(circle->radius, 2.15, tight);
}

TEST(Offset, of_an_l_crosses_in_its_inner_corner_and_goes_round_the_five_others) {
  // 60 x 40 less 40 x 25: the inner corner at (20, 15) moves to (20.5, 15.5).
  const Loop l = Loop::polygon({{0, 0}, {60, 0}, {60, 15}, {20, 15}, {20, 40}, {0, 40}});
  const double by = 0.5;
  const auto grown = offset(l, by);
  ASSERT_TRUE(grown);
  EXPECT_EQ(grown->vertices.size(), 11U);
  // A convex corner adds a quarter of a circle; the inner one loses a square that both neighbours would add.
  EXPECT_NEAR(grown->area_mm2(), l.area_mm2() + l.perimeter_mm() * by + 5 * M_PI / 4 * by * by - by * by, tight);
  bool found = false;
  for (const Vertex& v : grown->vertices) found = found || norm(v.at - Vec2{20.5, 15.5}) < tight;
  EXPECT_TRUE(found);
}

TEST(Offset, of_a_slot_with_rounded_ends_keeps_them_tangent) {
  const Loop slot = Loop::rounded_rectangle({0, 0}, {30, 6}, 3);
  const auto smaller = offset(slot, -0.25);
  ASSERT_TRUE(smaller);
  EXPECT_NEAR(smaller->area_mm2(), 24 * 5.5 + M_PI * 2.75 * 2.75, tight);
}

TEST(Offset, of_an_arc_that_meets_a_line_at_an_angle_ends_where_both_are_crossed) {
  // A half disc of radius 10 over its diameter, shrunk by 1: the line at y = 1 meets the circle of radius 9.
  const Loop half{{{{-10, 0}, 0}, {{10, 0}, 1}}};
  const auto smaller = offset(half, -1);
  ASSERT_TRUE(smaller);
  const double x = std::sqrt(81.0 - 1.0);
  expect_near(smaller->vertices[0].at, {-x, 1});
  expect_near(smaller->vertices[1].at, {x, 1});
  const double angle = std::acos(1 / 9.0);
  EXPECT_NEAR(smaller->area_mm2(), 81 * angle - x, tight);
}

TEST(Offset, back_again_is_the_outline_where_its_corners_are_rounded) {
  const Loop loop = Loop::rounded_rectangle({0, 0}, {80, 30}, 4);
  const auto grown = offset(loop, 0.3);
  ASSERT_TRUE(grown);
  const auto back = offset(*grown, -0.3);
  ASSERT_TRUE(back);
  ASSERT_EQ(back->vertices.size(), loop.vertices.size());
  for (std::size_t i = 0; i < loop.vertices.size(); ++i) expect_near(back->vertices[i].at, loop.vertices[i].at);
}

TEST(Offset, is_none_where_a_cut_out_closes_or_an_edge_is_lost) {
  EXPECT_FALSE(offset(Loop::circle({0, 0}, 0.4), -0.5));
  EXPECT_FALSE(offset(Loop::rectangle({0, 0}, {30, 0.9}), -0.5));
  EXPECT_FALSE(offset(Loop::rounded_rectangle({0, 0}, {30, 10}, 0.3), -0.5));
  // A notch 0.8 wide that grows shut.
  EXPECT_FALSE(
      offset(Loop::polygon({{0, 0}, {20, 0}, {20, 10}, {10.8, 10}, {10.8, 4}, {10, 4}, {10, 10}, {0, 10}}), 0.5));
}

TEST(Offset, of_a_plate_is_what_a_cut_of_that_width_leaves_the_plate_of) {
  const Profile plate{Loop::rectangle({0, 0}, {100, 50}),
                      {Loop::circle({20, 25}, 5), Loop::rectangle({60, 10}, {80, 40})}};
  const double by = 0.1;
  const auto cut = offset(plate, by);
  ASSERT_TRUE(cut);
  const double outer = 5000 + 300 * by + M_PI * by * by;
  EXPECT_NEAR(cut->area_mm2(), outer - M_PI * 4.9 * 4.9 - 19.8 * 29.8, tight);
}

}  // namespace
}  // namespace fitup::geometry

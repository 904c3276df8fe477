// Quadrilaterals from sides and diagonals, against closed forms and against a slow search.

#include "geometry/quadrilateral.h"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

namespace fitup::geometry {
namespace {

FourSides measured(const Corners4& c) {
  return {norm(c[1] - c[0]), norm(c[2] - c[3]), norm(c[3] - c[0]),
          norm(c[2] - c[1]), norm(c[2] - c[0]), norm(c[3] - c[1])};
}

double farthest(const Corners4& a, const Corners4& b) {
  double most = 0;
  for (std::size_t i = 0; i < 4; ++i) most = std::max(most, norm(a[i] - b[i]));
  return most;
}

// Pythagoras: 300, 400, 500.
TEST(Quadrilateral, of_a_rectangle_has_equal_diagonals) {
  const FourSides sides{400, 400, 300, 300, 500, std::nullopt};
  EXPECT_NEAR(falling_from(sides).value(), 500, 1e-9);
  const Corners4 laid = laid_on(corners_from(sides).value(), {400, 300});
  EXPECT_LT(farthest(laid, {Vec2{0, 0}, Vec2{400, 0}, Vec2{400, 300}, Vec2{0, 300}}), 1e-9);
}

// A kite's diagonals cross at right angles: two triangles 3-4-5 and two 4-7.5-8.5 about the axis from the low corner.
TEST(Quadrilateral, of_a_kite_has_the_diagonal_that_pythagoras_gives) {
  const double shorter = 5;
  const double longer = 8.5;
  const double axis = 3 + 7.5;
  const FourSides sides{shorter, longer, shorter, longer, axis, std::nullopt};
  EXPECT_NEAR(falling_from(sides).value(), 8, 1e-12);
}

// A parallelogram's diagonals have together twice the squares of its sides.
TEST(Quadrilateral, of_a_sheared_rectangle_obeys_the_parallelogram_law) {
  const double width = 984;
  const double height = 329;
  const double shear = 6;
  const double side = std::hypot(height, shear);
  const double rising = std::hypot(width + shear, height);
  const double falling = falling_from({width, width, side, side, rising, std::nullopt}).value();
  EXPECT_NEAR(falling, std::hypot(width - shear, height), 1e-9);
  EXPECT_NEAR(rising * rising + falling * falling, 2 * (width * width + side * side), 1e-6);
}

TEST(Quadrilateral, from_the_falling_diagonal_is_the_one_from_the_rising) {
  const Corners4 drawn{Vec2{1, -2}, Vec2{984, 3}, Vec2{981, 331}, Vec2{-4, 326}};
  FourSides sides = measured(drawn);
  const Corners4 by_rising = laid_on(corners_from(sides).value(), {984, 329});
  sides.rising.reset();
  const Corners4 by_falling = laid_on(corners_from(sides).value(), {984, 329});
  EXPECT_LT(farthest(by_rising, by_falling), 1e-8);
  const FourSides again = measured(by_rising);
  EXPECT_NEAR(*again.falling, *sides.falling, 1e-8);
  EXPECT_NEAR(again.up_high, sides.up_high, 1e-8);
}

TEST(Quadrilateral, that_no_triangle_allows_is_none) {
  EXPECT_FALSE(corners_from({400, 400, 300, 300, 701, std::nullopt}));
  EXPECT_FALSE(corners_from({400, 400, 300, 300, 99, std::nullopt}));
  EXPECT_FALSE(closed({400, 400, 300, 300, 701, 500}));
  EXPECT_TRUE(corners_from({400, 400, 300, 300, 699, std::nullopt}));
}

TEST(Closing, leaves_alone_what_closes) {
  const FourSides sides = measured({Vec2{0, 0}, Vec2{500, 2}, Vec2{503, 300}, Vec2{-1, 304}});
  const FourSides out = closed(sides).value();
  EXPECT_NEAR(out.across_low, sides.across_low, 1e-7);
  EXPECT_NEAR(*out.falling, *sides.falling, 1e-7);
}

// The slow reference: corners moved about at random, ever less, for the least sum of squares over all six measures.
double search_least_squares(const FourSides& sides, Corners4 corners, unsigned seed) {
  const auto cost = [&](const Corners4& c) {
    const FourSides m = measured(c);
    const auto square = [](double d) { return d * d; };
    return square(m.across_low - sides.across_low) + square(m.across_high - sides.across_high) +
           square(m.up_low - sides.up_low) + square(m.up_high - sides.up_high) + square(*m.rising - *sides.rising) +
           square(*m.falling - *sides.falling);
  };
  std::mt19937 random(seed);
  std::normal_distribution<double> normal(0, 1);
  double best = cost(corners);
  for (double step = 2; step > 1e-5; step *= 0.9995) {
    Corners4 trial = corners;
    for (Vec2& p : trial) p = p + Vec2{step * normal(random), step * normal(random)};
    if (const double c = cost(trial); c < best) {
      best = c;
      corners = trial;
    }
  }
  return best;
}

TEST(Closing, changes_no_more_than_a_slow_search_finds_it_must) {
  for (const unsigned seed : {1U, 2U, 3U}) {
    const Corners4 drawn{Vec2{0, 0}, Vec2{984, 2}, Vec2{981, 331}, Vec2{-3, 328}};
    FourSides sides = measured(drawn);
    *sides.falling += 1.0 + seed;
    sides.up_low -= 0.7 * seed;
    const FourSides out = closed(sides).value();
    EXPECT_NEAR(falling_from(out).value(), *out.falling, 1e-6);
    const auto square = [](double d) { return d * d; };
    const double changed = square(out.across_low - sides.across_low) + square(out.across_high - sides.across_high) +
                           square(out.up_low - sides.up_low) + square(out.up_high - sides.up_high) +
                           square(*out.rising - *sides.rising) + square(*out.falling - *sides.falling);
    EXPECT_NEAR(changed, search_least_squares(sides, drawn, seed), 1e-3 * changed) << "seed " << seed;
  }
}

TEST(Laying, turns_and_moves_without_bending) {
  const Corners4 drawn{Vec2{100, 50}, Vec2{700, 400}, Vec2{550, 690}, Vec2{-60, 330}};
  const Corners4 laid = laid_on(drawn, {690, 330});
  for (std::size_t i = 0; i < 4; ++i) {
    for (std::size_t j = 0; j < i; ++j) EXPECT_NEAR(norm(laid[i] - laid[j]), norm(drawn[i] - drawn[j]), 1e-9);
  }
}

TEST(Laying, leaves_no_turn_or_move_that_would_come_nearer) {
  const Vec2 size{690, 330};
  const Corners4 wanted{Vec2{0, 0}, Vec2{size.x, 0}, size, Vec2{0, size.y}};
  const Corners4 laid = laid_on({Vec2{100, 50}, Vec2{700, 400}, Vec2{550, 690}, Vec2{-60, 330}}, size);
  const auto cost = [&](double angle, Vec2 by) {
    double sum = 0;
    for (std::size_t i = 0; i < 4; ++i) {
      const Vec2 p{laid[i].x * std::cos(angle) - laid[i].y * std::sin(angle) + by.x,
                   laid[i].x * std::sin(angle) + laid[i].y * std::cos(angle) + by.y};
      sum += dot(p - wanted[i], p - wanted[i]);
    }
    return sum;
  };
  const double best = cost(0, {});
  for (const double d : {-1e-3, 1e-3}) {
    EXPECT_GT(cost(d, {}), best);
    EXPECT_GT(cost(0, {d, 0}), best);
    EXPECT_GT(cost(0, {0, d}), best);
  }
}

TEST(Carrying, takes_corners_to_corners_and_straight_lines_to_straight_lines) {
  const Corners4 corners{Vec2{-1, 2}, Vec2{987, -1}, Vec2{984, 333}, Vec2{2, 328}};
  const Vec2 size{984, 329};
  EXPECT_EQ(carried(corners, size, {0, 0}), corners[0]);
  EXPECT_EQ(carried(corners, size, {984, 329}), corners[2]);
  const Vec2 a = carried(corners, size, {20, 0});
  const Vec2 b = carried(corners, size, {20, 100});
  const Vec2 c = carried(corners, size, {20, 329});
  EXPECT_NEAR(cross(b - a, c - a), 0, 1e-9);
}

}  // namespace
}  // namespace fitup::geometry

// Rectangles cut out of a rectangle, against unit cells that are counted one by one.

#include "plan/cut_out.h"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <random>

namespace fitup::plan {
namespace {

constexpr int wide = 24;
constexpr int high = 16;

// The slow and obvious way: which unit cells stay, and how many groups of cells that share a side they form.
class Cells {
 public:
  explicit Cells(const std::vector<Box2>& cuts) {
    for (int x = 0; x < wide; ++x) {
      for (int y = 0; y < high; ++y) stays(x, y) = !in_any(cuts, {x + 0.5, y + 0.5});
    }
  }

  [[nodiscard]] int count() const {
    int n = 0;
    for (const bool cell : cells_) n += cell ? 1 : 0;
    return n;
  }

  std::size_t take_pieces() {
    std::size_t pieces = 0;
    for (int x = 0; x < wide; ++x) {
      for (int y = 0; y < high; ++y) {
        if (!stays(x, y)) continue;
        ++pieces;
        take(x, y);
      }
    }
    return pieces;
  }

 private:
  bool& stays(int x, int y) { return cells_[static_cast<std::size_t>(x * high + y)]; }

  static bool in_any(const std::vector<Box2>& cuts, Vec2 p) {
    for (const Box2& c : cuts) {
      if (p.x > c.low.x && p.x < c.high.x && p.y > c.low.y && p.y < c.high.y) return true;
    }
    return false;
  }

  void take(int x, int y) {
    if (x < 0 || y < 0 || x >= wide || y >= high || !stays(x, y)) return;
    stays(x, y) = false;
    take(x - 1, y);
    take(x + 1, y);
    take(x, y - 1);
    take(x, y + 1);
  }

  std::array<bool, wide * high> cells_{};
};

TEST(CutOut, of_any_rectangles_leaves_the_cells_that_no_rectangle_covers) {
  std::mt19937 random(20);  // the seed is part of the test's name in a failure
  int whole = 0;
  for (int run = 0; run < 2000; ++run) {
    std::vector<Box2> cuts;
    const auto pick = [&](int from, int to) { return std::uniform_int_distribution<int>(from, to)(random); };
    for (int n = pick(0, 4); n > 0; --n) {
      const int x = pick(-4, wide);
      const int y = pick(-4, high);
      cuts.push_back({Vec2{1.0 * x, 1.0 * y}, Vec2{1.0 * (x + pick(1, 9)), 1.0 * (y + pick(1, 9))}});
    }
    Cells cells(cuts);
    const int left = cells.count();
    const CutOut out = cut_out({wide, high}, cuts, 0);
    ASSERT_EQ(out.pieces, cells.take_pieces()) << "run " << run;
    if (out.pieces != 1) continue;
    ++whole;
    EXPECT_NEAR(out.profile.area_mm2(), left, 1e-9) << "run " << run;
  }
  EXPECT_GT(whole, 1000);
}

// Each rounded corner leaves r^2 (1 - pi/4) more: a window has four, a notch in an edge two, in a corner one.
TEST(CutOut, rounds_the_corners_that_the_cutter_turns_in) {
  const double more = 25 * (1 - M_PI / 4);
  const auto area = [&](const Box2& cut) {
    const CutOut out = cut_out({100, 60}, {cut}, 5);
    EXPECT_EQ(out.pieces, 1U);
    EXPECT_EQ(flaw_in(out.profile), std::nullopt);
    return out.profile.area_mm2();
  };
  EXPECT_NEAR(area({{20, 20}, {50, 40}}), 6000 - 600 + 4 * more, 1e-9);
  EXPECT_NEAR(area({{20, 40}, {50, 70}}), 6000 - 600 + 2 * more, 1e-9);
  EXPECT_NEAR(area({{-9, 40}, {30, 70}}), 6000 - 600 + 1 * more, 1e-9);
}

TEST(CutOut, of_a_tiny_window_is_a_profile_that_can_be_cut) {
  const CutOut out = cut_out({100, 60}, {{{20, 20}, {27, 27}}}, 5);
  ASSERT_EQ(out.profile.holes.size(), 1U);
  EXPECT_EQ(flaw_in(out.profile), std::nullopt);
}

TEST(WithoutSlivers, takes_narrow_strips_between_windows_and_at_the_edge_and_leaves_wide_ones) {
  const std::vector<Box2> cuts{{{2, 10}, {20, 30}}, {{22, 15}, {40, 50}}, {{43, 15}, {60, 30}}};
  const CutOut out = cut_out({100, 60}, without_slivers({100, 60}, cuts, 3), 0);
  EXPECT_EQ(out.pieces, 1U);
  // The first is a notch with the strip at the edge and joins the second; a strip of exactly 3 stays before the third.
  EXPECT_NEAR(out.profile.area_mm2(), 6000 - (20 * 20 + 18 * 35 + 2 * 15 + 17 * 15), 1e-9);
  EXPECT_EQ(out.profile.holes.size(), 1U);
}

}  // namespace
}  // namespace fitup::plan

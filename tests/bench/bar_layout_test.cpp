// Pieces on bars: kerf, trim, remnants, several lengths.
// Entry: gtest.
#include "bench/bar_layout.h"

#include <gtest/gtest.h>

#include <ctime>

#include <map>
#include <random>

namespace fitup::bench {
namespace {

BarStock stock(std::vector<double> lengths_mm, double kerf_mm, double trim_mm) {
  return {std::move(lengths_mm), kerf_mm, trim_mm, {}, {}, {}};
}

/// Pieces and cuts of each bar against its length, worked out anew; each piece as often as it is wanted.
void expect_sound(const BarLayout& layout, const std::vector<BarPiece>& pieces, const BarStock& stock) {
  std::map<std::size_t, std::size_t> laid;
  for (const LaidBar& bar : layout.bars) {
    double used_mm = bar.remnant ? 0 : 2 * stock.end_trim_mm;
    for (const std::size_t i : bar.pieces) {
      ++laid[i];
      used_mm += pieces.at(i).length_mm;
    }
    used_mm += stock.kerf_mm * static_cast<double>(bar.pieces.size() - 1);
    EXPECT_LE(used_mm, bar.stock_mm + 1e-3);
  }
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    const bool left = std::find(layout.too_long.begin(), layout.too_long.end(), i) != layout.too_long.end();
    EXPECT_EQ(laid[i], left ? 0 : pieces[i].count) << pieces[i].mark;
  }
}

// 6000 less 2 x 10 is 5980: six pieces of 995 with five cuts of 2 are 5980 exactly, six of 995.1 are too long.
TEST(BarLayout, KnowsKerfAndTrimToTheLastMillimetre) {
  const BarStock six = stock({6000}, 2, 10);
  EXPECT_EQ(lay_out_bars({{"A", 995, 6}}, six, {}).bars.size(), 1U);
  EXPECT_EQ(lay_out_bars({{"A", 995.1, 6}}, six, {}).bars.size(), 2U);
  EXPECT_TRUE(lay_out_bars({{"A", 995.1, 6}}, six, {}).proven);
}

TEST(BarLayout, SaysWhatIsLeftOver) {
  const auto layout = lay_out_bars({{"A", 984, 4}, {"B", 508, 2}}, stock({6000}, 2, 10), {});
  ASSERT_EQ(layout.bars.size(), 1U);
  // 6000 - 10 in front - (4 x 984 + 2 x 508) - 6 cuts of 2; the raw far end is still on it.
  EXPECT_NEAR(layout.bars.front().rest_mm, 6000 - 10 - 4952 - 12, 1e-9);
}

/// With a kerf of k, pieces of l on a bar of L are pieces of l + k on a bar of L + k without a kerf.
TEST(BarLayout, WithKerfIsTheLongerPiecesWithoutKerf) {
  std::mt19937 lot(3);
  for (int run = 0; run < 40; ++run) {
    std::vector<BarPiece> with;
    std::vector<BarPiece> without;
    for (int n = 0; n < 6; ++n) {
      const double length_mm = 300 + static_cast<double>(lot() % 1500);
      const std::size_t count = 1 + lot() % 5;
      with.push_back({"P" + std::to_string(n), length_mm, count});
      without.push_back({"P" + std::to_string(n), length_mm + 3, count});
    }
    const auto a = lay_out_bars(with, stock({6000}, 3, 0), {});
    const auto b = lay_out_bars(without, stock({6003}, 0, 0), {});
    EXPECT_EQ(a.bars.size(), b.bars.size()) << "run " << run;
    EXPECT_EQ(a.proven, b.proven) << "run " << run;
    expect_sound(a, with, stock({6000}, 3, 0));
  }
}

TEST(BarLayout, UsesRemnantsFirst) {
  const BarStock six = stock({6000}, 2, 10);
  const std::vector<BarPiece> pieces{{"A", 1000, 3}, {"B", 400, 2}};
  const auto layout = lay_out_bars(pieces, six, {{"", 1402, 1}, {"", 350, 1}});
  ASSERT_EQ(layout.bars.size(), 2U);
  EXPECT_TRUE(layout.bars[0].remnant);
  EXPECT_NEAR(layout.bars[0].stock_mm, 1402, 1e-9);
  EXPECT_EQ(layout.bars[0].pieces.size(), 2U);  // 1000 + 2 + 400
  expect_sound(layout, pieces, six);
  EXPECT_NEAR(layout.bought_mm, 6000, 1e-9);
  // All of it is 3808 with its cuts; both remnants hold 1756 at most: a bar is needed.
  EXPECT_TRUE(layout.proven);
}

TEST(BarLayout, TakesTheShortestBarThatHoldsWhatIsOnIt) {
  const BarStock both = stock({6000, 3000}, 2, 10);
  const std::vector<BarPiece> pieces{{"A", 2900, 3}};
  const auto layout = lay_out_bars(pieces, both, {});
  expect_sound(layout, pieces, both);
  EXPECT_NEAR(layout.bought_mm, 9000, 1e-9);
  EXPECT_TRUE(layout.proven);  // 3 x 2900 do not go on 6000 + ... less than 9000
}

TEST(BarLayout, SaysWhatIsTooLong) {
  const auto layout = lay_out_bars({{"A", 7000, 2}, {"B", 100, 1}}, stock({6000}, 2, 10), {});
  EXPECT_EQ(layout.too_long, std::vector<std::size_t>{0});
  EXPECT_EQ(layout.bars.size(), 1U);
}

/// A list as of a whole building, 300 lengths to the millimetre and about 900 pieces: it ends within 10 s of a
/// processor, with every piece on a bar and a bound that is no more than what was found.
TEST(BarLayout, OfALargeListEndsInTime) {
  std::mt19937 lot(11);
  std::vector<BarPiece> pieces;
  std::size_t count = 0;
  for (int n = 0; n < 300; ++n) {
    pieces.push_back({"P" + std::to_string(n), 150 + static_cast<double>(lot() % 3000), 1 + lot() % 5});
    count += pieces.back().count;
  }
  const std::clock_t start = std::clock();
  const auto layout = lay_out_bars(pieces, stock({6000}, 2, 10), {});
  EXPECT_LT(static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC, 10);
  std::size_t laid = 0;
  for (const LaidBar& bar : layout.bars) laid += bar.pieces.size();
  EXPECT_EQ(laid, count);
  EXPECT_LE(layout.bound_mm, layout.bought_mm);
  EXPECT_GE(layout.bound_mm, 0.99 * layout.bought_mm) << "within a bar or two of the bound";
}

}  // namespace
}  // namespace fitup::bench

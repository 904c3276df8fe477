// The sweep against every pair looked at.
#include "geometry/near_boxes.h"

#include <random>

#include <gtest/gtest.h>

namespace fitup {
namespace {

TEST(NearPairs, AreThoseThatComparingEveryPairFinds) {
  constexpr unsigned seed = 31;
  std::cout << "seed " << seed << '\n';
  std::mt19937 random(seed);
  std::uniform_real_distribution<double> at(0, 300);
  std::uniform_real_distribution<double> size(1, 60);
  std::vector<Box3> boxes;
  for (int i = 0; i < 300; ++i) {
    const Vec3 low{at(random), at(random), at(random)};
    boxes.push_back({low, low + Vec3{size(random), size(random), size(random)}});
  }
  // Touching, and just off by less and by more than the band.
  boxes.push_back({{400, 0, 0}, {410, 10, 10}});
  boxes.push_back({{410, 0, 0}, {420, 10, 10}});
  boxes.push_back({{420.00005, 0, 0}, {430, 10, 10}});
  boxes.push_back({{430.001, 0, 0}, {440, 10, 10}});
  boxes.push_back(Box3{});
  std::vector<std::pair<std::size_t, std::size_t>> expected;
  for (std::size_t i = 0; i < boxes.size(); ++i) {
    for (std::size_t j = i + 1; j < boxes.size(); ++j) {
      if (!boxes[i].empty() && !boxes[j].empty() && !geometry::apart(boxes[i], boxes[j], 1e-4))
        expected.emplace_back(i, j);
    }
  }
  EXPECT_EQ(geometry::near_pairs(boxes, 1e-4), expected);
  EXPECT_GT(expected.size(), 100U);
}

TEST(NearBoxes, AreThoseThatComparingEachFinds) {
  constexpr unsigned seed = 57;
  std::cout << "seed " << seed << '\n';
  std::mt19937 random(seed);
  std::uniform_real_distribution<double> at(-200, 300);
  std::uniform_real_distribution<double> size(0.5, 200);
  const auto any = [&] {
    const Vec3 low{at(random), at(random), at(random)};
    return Box3{low, low + Vec3{size(random), size(random) / 4, size(random) / 20}};
  };
  std::vector<Box3> boxes{Box3{}};
  for (int i = 0; i < 300; ++i) boxes.push_back(any());
  const geometry::NearBoxes index(boxes);
  std::size_t found = 0;
  for (int i = 0; i < 300; ++i) {
    // Some reach out of all of them, some stand outside.
    Box3 asked = any();
    if (i % 3 == 0) asked = {asked.low + Vec3{-300, 0, 0}, asked.high + Vec3{i % 2 == 0 ? 400.0 : -200.0, 0, 0}};
    for (const double band_mm : {-1e-4, 0.0, 20.0}) {
      std::vector<std::size_t> expected;
      for (std::size_t b = 0; b < boxes.size(); ++b) {
        if (!boxes[b].empty() && !geometry::apart(asked, boxes[b], band_mm)) expected.push_back(b);
      }
      EXPECT_EQ(index.near(asked, band_mm), expected);
      found += expected.size();
    }
  }
  EXPECT_GT(found, 500U);
  EXPECT_TRUE(geometry::NearBoxes({}).near(boxes[1], 1).empty());
}

}  // namespace
}  // namespace fitup

// Rows of things from left to right, worked out by hand.
#include "plan/item_rows.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <vector>

namespace fitup::plan {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;
using testing::UnorderedElementsAre;

Box3 box(double x, double width, double z, double height, double y = 0, double depth = 100) {
  return {{x, y, z}, {x + width, y + depth, z + height}};
}

std::vector<std::vector<std::size_t>> rows(const std::vector<Box3>& boxes, std::size_t most = 64) {
  std::vector<double> lengths;
  for (const Box3& b : boxes) lengths.push_back(b.size().x);
  return rows_beside(boxes, lengths, most);
}

TEST(ItemRows, OneRowGoesFromLeftToRightInWhateverOrderItIsGiven) {
  EXPECT_THAT(rows({}), IsEmpty());
  EXPECT_THAT(rows({box(20, 10, 0, 50), box(0, 10, 0, 50), box(10, 10, 0, 50)}), ElementsAre(ElementsAre(1, 2, 0)));
}

TEST(ItemRows, LevelsAndLinesAreRowsOfTheirOwn) {
  EXPECT_THAT(rows({box(0, 10, 0, 50), box(10, 10, 0, 50), box(0, 10, 50, 50), box(10, 10, 50, 50)}),
              UnorderedElementsAre(ElementsAre(0, 1), ElementsAre(2, 3)));
  EXPECT_THAT(rows({box(0, 10, 0, 50, 0, 100), box(10, 10, 0, 50, 100, 100)}),
              UnorderedElementsAre(ElementsAre(0), ElementsAre(1)));
}

TEST(ItemRows, ATallThingBesideTwoOnEachOtherIsInARowWithEach) {
  EXPECT_THAT(rows({box(0, 10, 0, 50), box(10, 10, 0, 100), box(0, 12, 50, 50)}),
              UnorderedElementsAre(ElementsAre(0, 1), ElementsAre(2, 1)));
  // Whichever comes first in the list.
  EXPECT_THAT(rows({box(10, 10, 0, 100), box(0, 12, 50, 50), box(0, 10, 0, 50)}),
              UnorderedElementsAre(ElementsAre(2, 0), ElementsAre(1, 0)));
}

TEST(ItemRows, WhatIsBetweenIsInTheRow) {
  // 0 and 3 are as high as each other, 1 and 2 are steps between: 0 stands beside 3, and longer over both.
  const auto stairs = rows({box(0, 10, 0, 100), box(10, 10, 0, 40), box(20, 10, 30, 40), box(30, 10, 0, 100)});
  EXPECT_THAT(stairs, ElementsAre(ElementsAre(0, 1, 2, 3)));
}

TEST(ItemRows, OfTooManyTheLongestThroughEachAreKept) {
  // Five tall ones with two on each other between each two: 2^4 rows.
  std::vector<Box3> boxes;
  for (int i = 0; i < 5; ++i) {
    boxes.push_back(box(20.0 * i, 10, 0, 100));
    if (i == 4) continue;
    boxes.push_back(box(20.0 * i + 10, 7, 0, 50));
    boxes.push_back(box(20.0 * i + 10, 9, 50, 50));
  }
  EXPECT_EQ(rows(boxes).size(), 16U);
  const auto kept = rows(boxes, 15);
  // The longest takes the wider one four times; each narrower one is in one row with three wider ones.
  EXPECT_EQ(kept.size(), 5U);
  EXPECT_THAT(kept, testing::Contains(ElementsAre(0, 2, 3, 5, 6, 8, 9, 11, 12)));
  EXPECT_THAT(kept, testing::Contains(ElementsAre(0, 1, 3, 5, 6, 8, 9, 11, 12)));
}

}  // namespace
}  // namespace fitup::plan

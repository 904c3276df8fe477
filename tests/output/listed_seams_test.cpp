// Seams as whoever welds them sees them: what runs on is one, what is too short goes with another, and nothing is lost.
#include "output/listed_seams.h"

#include <gtest/gtest.h>

#include <cmath>

namespace fitup::output {
namespace {

constexpr double tiny = 1e-9;

Seam along_x(double from, double to, SeamState state = SeamState::laid) {
  Seam seam;
  seam.kind = SeamKind::edge;
  seam.state = state;
  seam.from = {from, 0, 0};
  seam.to = {to, 0, 0};
  seam.length_mm = std::abs(to - from);
  seam.size_mm = 4;
  seam.side = axis::minus_y;
  return seam;
}

/// 6 mm, square to the others.
Seam round_the_corner() {
  Seam seam = along_x(0, 6);
  seam.to = {0, 6, 0};
  seam.side = axis::minus_x;
  return seam;
}

Seams of(std::vector<Seam> all) {
  Seams seams;
  seams.all = std::move(all);
  return seams;
}

double listed_mm(const std::vector<ListedSeam>& all) {
  double sum = 0;
  for (const ListedSeam& l : all) sum += l.length_mm + l.short_mm;
  return sum;
}

TEST(ListedSeams, RunOnEndToEndWhateverTheirOrderAndWay) {
  const auto all = listed_seams(of({along_x(40, 90), along_x(40, 8, SeamState::ground_flush), along_x(0, 8)}));
  ASSERT_EQ(all.size(), 1U);
  EXPECT_EQ(all[0].pieces, (std::vector<std::size_t>{2, 1, 0}));
  EXPECT_NEAR(all[0].from.x, 0, tiny);
  EXPECT_NEAR(all[0].to.x, 90, tiny);
  EXPECT_NEAR(all[0].length_mm, 90, tiny);
  EXPECT_NEAR(all[0].flush_mm, 32, tiny);
  EXPECT_TRUE(all[0].mixed());
}

TEST(ListedSeams, OfAnotherJointSizeSideOrLineStayApart) {
  Seam joint = along_x(50, 100), size = joint, side = joint, line = joint;
  const Seam apart = along_x(51, 100);
  joint.joint = 1;
  size.size_mm = 3;
  side.side = axis::z;
  line.to = {50, 50, 0};
  for (const Seam& other : {joint, size, side, line, apart}) {
    const auto all = listed_seams(of({along_x(0, 50), other}));
    EXPECT_EQ(all.size(), 2U);
    EXPECT_NEAR(listed_mm(all), 50 + other.length_mm, tiny);
  }
}

TEST(ListedSeams, ThatAreLeftFreeOrIntermittentAreListedByThemselves) {
  Seam stitched = along_x(50, 150);
  stitched.stitch = stitch_on(100, 40, 20);
  const Seams seams = of({along_x(0, 50), stitched, along_x(150, 200, SeamState::left_free)});
  const auto all = listed_seams(seams);
  ASSERT_EQ(all.size(), 3U);
  EXPECT_NEAR(all[1].length_mm, 100, tiny);
  EXPECT_NEAR(all[1].weld_mm, 80, tiny);
  EXPECT_EQ(stitch_words(seams.all[1], PaperUnits(UnitSystem::mm_kg)), "2 × 40 (20)");
  EXPECT_EQ(stitch_words(seams.all[0], PaperUnits(UnitSystem::mm_kg)), "");
}

TEST(ListedSeams, ShorterThanTenMillimetresGoWithTheLongestOfTheirJoint) {
  const auto all = listed_seams(of({round_the_corner(), along_x(0, 50), along_x(60, 100)}));
  ASSERT_EQ(all.size(), 2U);
  EXPECT_EQ(all[0].short_ones, 1U);
  EXPECT_NEAR(all[0].short_mm, 6, tiny);
  EXPECT_NEAR(listed_mm(all), 96, tiny);
}

TEST(ListedSeams, OfAJointThatHasShortOnesAloneAreOneRow) {
  const auto all = listed_seams(of({round_the_corner(), along_x(0, 8)}));
  ASSERT_EQ(all.size(), 1U);
  EXPECT_TRUE(all[0].is_short());
  EXPECT_NEAR(all[0].length_mm, 8, tiny);
  EXPECT_NEAR(all[0].short_mm, 6, tiny);
}

}  // namespace
}  // namespace fitup::output

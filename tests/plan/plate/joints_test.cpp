// Tabs, slots, stepped edges and half-laps against closed forms.
// Entry: gtest.
#include "plan/plate/joints.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <random>

namespace fitup::plan::plate {
namespace {

using std::numbers::pi;

struct FitCase {
  double thickness_mm;
  bool steel;
  double slot_mm;
};

class Fits : public testing::TestWithParam<FitCase> {};

// EN 10051 category A, width up to 1200 mm, and ISO 9013:2017 class 1, nominal size 3 to 10 mm; 0.15 mm of air lies in
// the middle of what is common practice. Aluminium: EN 485-4, from memory, rounded up.
INSTANTIATE_TEST_SUITE_P(
    BySheet, Fits,
    testing::Values(FitCase{2, true, 2 + 0.17 + 0.15 + 0.15}, FitCase{3, true, 3 + 0.20 + 0.15 + 0.15},
                    FitCase{4, true, 4 + 0.22 + 0.20 + 0.15}, FitCase{5, true, 5 + 0.24 + 0.20 + 0.15},
                    FitCase{6, true, 6 + 0.26 + 0.20 + 0.15}, FitCase{8, true, 8 + 0.29 + 0.25 + 0.15},
                    FitCase{4, false, 4 + 0.20 + 0.20 + 0.15}));

TEST_P(Fits, SlotIsTheThickestSheetAndWhatTheCutIsOffAndAir) {
  const JointFit fit = joint_fit(GetParam().thickness_mm, GetParam().steel);
  EXPECT_NEAR(fit.slot_mm(), GetParam().slot_mm, 1e-9);
  EXPECT_GE(fit.air_mm, 0.1);
  EXPECT_LE(fit.air_mm, 0.2);
}

// Half of what the slot is wider than the sheet is missing of the web above it.
TEST_P(Fits, LeavesTheWebThatTheCutterNeedsBesideTheSlot) {
  const JointFit fit = joint_fit(GetParam().thickness_mm, GetParam().steel);
  for (const double web : {0.5, 1.0, 1.5}) {
    const double slot_ends = (GetParam().slot_mm - GetParam().thickness_mm) / 2;
    EXPECT_NEAR(beside_slot_mm(fit, web) - slot_ends, std::max(1.0, web) * GetParam().thickness_mm, 1e-9);
  }
}

TEST(Tabs, AreEvenAndKeepOffTheEnds) {
  for (double seam = 10; seam < 2500; seam += 7) {
    const auto tabs = tabs_along(seam, 4);
    const double length = tabs.empty() ? 0 : tabs.front().length_mm();
    for (std::size_t i = 0; i < tabs.size(); ++i) {
      const Stretch& other = tabs[tabs.size() - 1 - i];
      EXPECT_NEAR(tabs[i].from_mm, seam - other.to_mm, 1e-9) << "turned round it is the same";
      EXPECT_NEAR(tabs[i].length_mm(), length, 1e-9);
      if (i > 0) {
        EXPECT_LE(tabs[i].middle_mm() - tabs[i - 1].middle_mm(), 40 * 4 + 1e-9);
      }
    }
    if (tabs.empty()) {
      EXPECT_LT(seam, 2.5 * 4 + 2 * 1 * 4);
      continue;
    }
    EXPECT_GE(tabs.front().from_mm, 1 * 4 - 1e-9);
    EXPECT_GE(length, 2.5 * 4 - 1e-9);
    EXPECT_LE(length, 10 * 4 + 1e-9);
    EXPECT_EQ(tabs.size() >= 2, seam >= 2 * (length + 2 * 1 * 4)) << seam;
  }
}

TEST(Tabs, ForOneWayOnlyFitNoOther) {
  for (double seam = 30; seam < 1500; seam += 13) {
    const auto tabs = tabs_along(seam, 3, 1);
    ASSERT_FALSE(tabs.empty());
    const double turned_from = seam - tabs.back().to_mm;
    EXPECT_GT(std::abs(turned_from - tabs.front().from_mm), joint_fit(3, true).longer_mm()) << seam;
    EXPECT_LT(tabs.back().to_mm, seam);
  }
}

TEST(Slot, IsItsRectangleAndTwoRoundReliefs) {
  const Loop slot = closed_slot({10, 20}, {50, 24.57}, 1);
  const double ear = std::min(1.0, 4.57 / 5);
  EXPECT_NEAR(slot.area_mm2(), 40 * 4.57 + 4 * pi * ear * ear / 2, 1e-9);
  EXPECT_NEAR(slot.bounds().low.x, 10 - ear, 1e-9);
  EXPECT_NEAR(slot.bounds().size().y, 4.57, 1e-9);
  EXPECT_FALSE(flaw_in({slot, {}}));
  const Loop standing = closed_slot({20, 10}, {24.57, 50}, 1);
  EXPECT_NEAR(standing.area_mm2(), slot.area_mm2(), 1e-9);
  EXPECT_NEAR(standing.bounds().high.y, 50 + ear, 1e-9);
  EXPECT_FALSE(flaw_in({standing, {}}));
}

TEST(Edge, GainsItsTabsAndLosesItsNotchesAndTheirReliefs) {
  const double relief = 1;
  const double ears = 2 * pi * relief * relief / 2;
  const Loop plain = stepped_outline({300, 100}, {}, relief);
  EXPECT_NEAR(plain.area_mm2(), 300 * 100, 1e-9);
  const Loop tab = stepped_outline({300, 100}, {{{{{100, 140}, 4}}, {}, {}, {}}}, relief);
  EXPECT_NEAR(tab.area_mm2(), 300 * 100 + 40 * 4 - ears, 1e-9);
  EXPECT_NEAR(tab.bounds().low.y, -4, 1e-9);
  const Loop notch = stepped_outline({300, 100}, {{{}, {{{30, 70}, -4.3}}, {}, {}}}, relief);
  EXPECT_NEAR(notch.area_mm2(), 300 * 100 - 40 * 4.3 - ears, 1e-9);
}

TEST(Edge, SetBackWithTabsKeepsTheTabsOnly) {
  // Of the top: back by 4, one tab to 1 below the old edge.
  const Loop loop = stepped_outline({300, 100}, {{{}, {}, {{{0, 300}, -4}, {{120, 160}, -1}}, {}}}, 1);
  EXPECT_NEAR(loop.area_mm2(), 300 * 96 + 40 * 3 - pi, 1e-9);
  EXPECT_NEAR(loop.bounds().high.y, 99, 1e-9);
}

TEST(Edge, CornersBelongToTheStretchesBesideThem) {
  const Loop loop = stepped_outline({300, 100}, {{{{{0, 300}, -4}}, {}, {}, {{{0, 100}, -6}}}}, 1);
  EXPECT_NEAR(loop.area_mm2(), 294 * 96, 1e-9);
  const Loop corner = stepped_outline({300, 100}, {{{{{0, 20}, -5}}, {}, {}, {}}}, 1);
  EXPECT_NEAR(corner.area_mm2(), 300 * 100 - 20 * 5 - pi / 2, 1e-9) << "one inner corner, one relief";
}

TEST(Edge, OfAnyStepsIsAPlate) {
  std::mt19937 lot(7);
  std::uniform_real_distribution<double> at(8, 170);
  std::uniform_real_distribution<double> out(-5, 5);
  for (int i = 0; i < 400; ++i) {
    std::array<std::vector<Step>, 4> sides;
    for (auto& side : sides) {
      for (int n = 0; n < 3; ++n) {
        const double from = std::round(at(lot));
        side.push_back({{from, from + 20}, out(lot)});
      }
    }
    const auto flaw = flaw_in({stepped_outline({200, 200}, sides, 1), {}});
    EXPECT_FALSE(flaw) << i << ": " << *flaw;
  }
}

TEST(HalfLap, LeavesEachPlateHalfAndAirBetween) {
  const JointFit fit = joint_fit(4, true);
  const HalfLap lap = half_lap(36, fit);
  EXPECT_NEAR(lap.slot_mm, 4.57, 1e-9);
  EXPECT_NEAR(2 * lap.depth_mm - 36, 0.20 + 0.15, 1e-9) << "air between the grounds of the two slots";
  const double left = 36 - lap.depth_mm;
  EXPECT_LT(left, lap.depth_mm) << "what stays of one goes into the slot of the other";
}

}  // namespace
}  // namespace fitup::plan::plate

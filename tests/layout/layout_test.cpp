// Where items stand and the free inside that follows: sums that can be done on paper.
#include "fitup/layout.h"

#include <gtest/gtest.h>

namespace fitup {
namespace {

constexpr const char* head = R"(fitup = 1
name = "box"
[item.block]
size = [150, 430, 220]
mass = 23
foot_strips = { width = 16 }
rods = { thread = "M6", at = [[16, 24]], projection = 20 }
[item.low]
size = [80, 300, 100]
mass = 5
[item.plate]
size = [12, 410, 200]
mass = 1.1
)";

constexpr const char* box = R"(
clearance = { left = 8, right = 9, front = 44, back = 36, top = 60 }
frame = { section = "L 40x40x4" }
)";

class LayoutOf : public testing::Test {
 protected:
  BoxLayout of(const std::string& items, const std::string& row) {
    read_ = read_spec("box.toml", head + items + "[box.main]\nrow = " + row + box);
    for (const Diagnostic& d : read_.diagnostics.all()) ADD_FAILURE() << render(d, read_.sources, false);
    layout_ = lay_out(*read_.spec);
    return layout_.boxes.front();
  }
  SpecResult read_;
  Layout layout_;
};

TEST_F(LayoutOf, ARowIsTheSumOfItsItemsAndWhatStandsBetween) {
  const BoxLayout b = of("", R"([{ of = "block", count = 3, between = "plate" }])");
  ASSERT_EQ(b.items.size(), 5U);
  EXPECT_EQ(b.inside, (Vec3{8 + 3 * 150 + 2 * 12 + 9, 44 + 430 + 36, 220 + 60}));
  EXPECT_EQ(b.items[2].corner, (Vec3{8 + 150 + 12, 44, 0}));
  EXPECT_EQ(b.items[2].name, "block 2");
}

// How well a thing was measured goes with it to whoever reads the layout.
TEST_F(LayoutOf, CarriesAndShowsHowWellSizesAndClearancesWereMeasured) {
  const std::string items =
      "[item.old]\nsize = [{ value = 148, within = 0.5 }, 430, { value = 219, within = 1 }]\nmass = 20\n";
  const BoxLayout b = of(items, R"([{ of = "old", count = 2 }])");
  EXPECT_DOUBLE_EQ(b.items[1].item->size_within[0]->mm(), 0.5);
  EXPECT_FALSE(b.items[1].item->size_within[1]);
  const std::string text = to_text(layout_);
  EXPECT_NE(text.find("measured old: 148.000 within 0.500, 430.000, 219.000 within 1.000 mm\n"), std::string::npos)
      << text;
  EXPECT_EQ(text.find("measured old"), text.rfind("measured old")) << "once for both";
  EXPECT_EQ(text.find("clearance"), std::string::npos) << text;
}

TEST_F(LayoutOf, WhatStandsBetweenIsCentredInDepth) {
  const BoxLayout b = of("", R"([{ of = "block", count = 2, between = "plate" }])");
  EXPECT_TRUE(b.items[1].spacer);
  EXPECT_DOUBLE_EQ(b.items[1].corner.y, 44 + (430 - 410) / 2.0);
}

TEST_F(LayoutOf, EmptyGapsTakeRoomAndDifferentItemsFollowEachOther) {
  const BoxLayout b = of("", R"([{ of = "low", count = 2, gap = 5 }, { of = "block", count = 1 }])");
  ASSERT_EQ(b.items.size(), 3U);
  EXPECT_DOUBLE_EQ(b.items[2].corner.x, 8 + 80 + 5 + 80);
  EXPECT_EQ(b.inside, (Vec3{8 + 165 + 150 + 9, 44 + 430 + 36, 280}));
}

TEST_F(LayoutOf, FootStripsComeDownAtBothEdgesInOrder) {
  const BoxLayout b = of("", R"([{ of = "block", count = 2, gap = 10 }])");
  ASSERT_EQ(b.foot_strips.size(), 4U);
  EXPECT_EQ(b.foot_strips[0].area.low, (Vec2{8, 44}));
  EXPECT_EQ(b.foot_strips[0].area.high, (Vec2{8 + 16, 44 + 430}));
  EXPECT_EQ(b.foot_strips[1].edge, Face::right);
  EXPECT_DOUBLE_EQ(b.foot_strips[1].area.high.x, 8 + 150);
  EXPECT_EQ(b.foot_strips[2].item, 1U);
  EXPECT_DOUBLE_EQ(b.foot_strips[2].area.low.x, 8 + 160);
  EXPECT_DOUBLE_EQ(b.foot_strips[2].area.high.x, 8 + 160 + 16);
}

TEST_F(LayoutOf, RodsProjectBeyondBothEndFaces) {
  const BoxLayout b = of("", R"([{ of = "block", count = 1 }])");
  ASSERT_EQ(b.rods.size(), 1U);
  EXPECT_DOUBLE_EQ(b.rods[0].x, 8 + 16);
  EXPECT_DOUBLE_EQ(b.rods[0].z, 24);
  EXPECT_DOUBLE_EQ(b.rods[0].front_y, 44 - 20);
  EXPECT_DOUBLE_EQ(b.rods[0].back_y, 44 + 430 + 20);
}

TEST_F(LayoutOf, ARowPlacedByHandStandsThereAndTakesTheSameRoom) {
  const BoxLayout b = of("", R"([{ of = "block", count = 2, gap = 10, at = [3.8, 50, 45] }])");
  EXPECT_EQ(b.items[0].corner, (Vec3{3.8, 50, 45}));
  EXPECT_DOUBLE_EQ(b.items[1].corner.x, 3.8 + 160);
  EXPECT_TRUE(b.items[1].in_frame);
  EXPECT_NEAR(b.inside.x, 8 + 310 + 9, 1e-9);
}

TEST_F(LayoutOf, WhatBelongsToAnItemThatIsPlacedByHandIsInItsCoordinates) {
  const BoxLayout b = of("[[item.block.keep_clear]]\nface = \"top\"\nat = [0, 0]\nsize = [30, 40]\ndepth = 7\n",
                         R"([{ of = "block", at = [3.8, 50, 45] }])");
  ASSERT_EQ(b.rods.size(), 1U);
  EXPECT_DOUBLE_EQ(b.rods[0].x, 3.8 + 16);
  EXPECT_DOUBLE_EQ(b.rods[0].z, 45 + 24);
  ASSERT_EQ(b.foot_strips.size(), 2U);
  EXPECT_EQ(b.foot_strips[0].area.low, (Vec2{3.8, 50}));
  ASSERT_EQ(b.zones.size(), 1U);
  EXPECT_EQ(b.zones[0].box.low, (Vec3{3.8, 50, 45 + 220}));
}

struct ZoneCase {
  const char* face;
  Box3 expected;
};
class Zones : public LayoutOf, public testing::WithParamInterface<ZoneCase> {};

TEST_P(Zones, LieInFrontOfTheirFaceInTheOrderOfItsAxes) {
  const std::string zone = std::string("[[item.block.keep_clear]]\nface = \"") + GetParam().face +
                           "\"\nat = [10, 20]\nsize = [30, 40]\ndepth = 7\nwhy = \"cable\"\n";
  const BoxLayout b = of(zone, R"([{ of = "block", count = 1 }])");
  ASSERT_EQ(b.zones.size(), 1U);
  EXPECT_EQ(b.zones[0].box.low, GetParam().expected.low);
  EXPECT_EQ(b.zones[0].box.high, GetParam().expected.high);
}

// The block's corner is (8, 44, 0), its size 150 x 430 x 220.
INSTANTIATE_TEST_SUITE_P(
    Faces, Zones,
    testing::Values(ZoneCase{"front", {{18, 37, 20}, {48, 44, 60}}}, ZoneCase{"back", {{18, 474, 20}, {48, 481, 60}}},
                    ZoneCase{"left", {{1, 54, 20}, {8, 84, 60}}}, ZoneCase{"right", {{158, 54, 20}, {165, 84, 60}}},
                    ZoneCase{"top", {{18, 64, 220}, {48, 104, 227}}}, ZoneCase{"bottom", {{18, 64, -7}, {48, 104, 0}}}),
    [](const auto& c) { return std::string(c.param.face); });

}  // namespace
}  // namespace fitup

// Where items stand and the free inside that follows: sums that can be done on paper.
#include "fitup/layout.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <map>
#include <tuple>

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
  EXPECT_DOUBLE_EQ(b.rods[0].low.x, 8 + 16);
  EXPECT_DOUBLE_EQ(b.rods[0].low.z, 24);
  EXPECT_DOUBLE_EQ(b.rods[0].low.y, 44 - 20);
  EXPECT_DOUBLE_EQ(b.rods[0].high.y, 44 + 430 + 20);
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
  EXPECT_DOUBLE_EQ(b.rods[0].low.x, 3.8 + 16);
  EXPECT_DOUBLE_EQ(b.rods[0].low.z, 45 + 24);
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

struct TurnCase {
  int degrees;
  Vec3 size;
  Face strip;      // where the left strip comes down
  Vec2 strip_low;  // of it
  Vec3 rod_low;    // lower tip
  Vec3 rod_high;
};
class Turned : public LayoutOf, public testing::WithParamInterface<TurnCase> {};

// By the rotation matrix of a quarter turn, (x, y) to (-y, x), moved so that the low corner is at (8, 44) again.
TEST_P(Turned, ItsStripsAndRodsTurnWithIt) {
  const TurnCase& c = GetParam();
  const BoxLayout b = of("", "[{ of = \"block\", turned = " + std::to_string(c.degrees) + " }]");
  EXPECT_EQ(size_of(b.items[0]), c.size);
  EXPECT_EQ(b.inside, (Vec3{8 + c.size.x + 9, 44 + c.size.y + 36, 280}));
  EXPECT_EQ(b.foot_strips[0].edge, c.strip);
  EXPECT_EQ(b.foot_strips[0].area.low, c.strip_low);
  EXPECT_EQ(b.rods[0].low, c.rod_low);
  EXPECT_EQ(b.rods[0].high, c.rod_high);
}

// The block is 150 across, 430 deep; its rod stands at 16 across, 24 up and sticks out by 20.
INSTANTIATE_TEST_SUITE_P(
    By, Turned,
    testing::Values(TurnCase{0, {150, 430, 220}, Face::left, {8, 44}, {24, 24, 24}, {24, 494, 24}},
                    TurnCase{90, {430, 150, 220}, Face::front, {8, 44}, {-12, 60, 24}, {458, 60, 24}},
                    TurnCase{180, {150, 430, 220}, Face::right, {142, 44}, {142, 24, 24}, {142, 494, 24}},
                    TurnCase{270, {430, 150, 220}, Face::back, {8, 178}, {-12, 178, 24}, {458, 178, 24}}),
    [](const auto& c) { return std::to_string(c.param.degrees); });

// det = 1 keeps the hand; four quarters are none.
TEST(QuarterTurns, AreProperRotationsAndFourOfThemAreNone) {
  for (const int quarters : {0, 1, 2, 3}) {
    const Vec3 x = turned(axis::x, quarters);
    const Vec3 y = turned(axis::y, quarters);
    EXPECT_EQ(cross(x, y), axis::z) << quarters;
    EXPECT_EQ(turned(turned(axis::x, quarters), 4 - quarters), axis::x) << quarters;
  }
  EXPECT_EQ(turned(axis::minus_y, 1), axis::x);  // the front looks to the right
}

TEST_F(LayoutOf, AZoneTurnsWithItsItem) {
  const BoxLayout b = of("[[item.block.keep_clear]]\nface = \"front\"\nat = [10, 20]\nsize = [30, 40]\ndepth = 7\n",
                         R"([{ of = "block", turned = 90 }])");
  // Its front is at X 8 + 430 now, and what was 10 to 40 from its left is 10 to 40 from the front.
  EXPECT_EQ(b.zones[0].box.low, (Vec3{438, 54, 20}));
  EXPECT_EQ(b.zones[0].box.high, (Vec3{445, 84, 60}));
}

TEST_F(LayoutOf, StripsAlongTheFrontAndTheBackRunOverTheWholeWidth) {
  const BoxLayout b =
      of("[item.tray]\nsize = [100, 200, 30]\nmass = 1\n"
         "foot_strips = { width = 16, sides = \"front back\" }\n",
         R"([{ of = "tray" }])");
  EXPECT_EQ(b.foot_strips[0].edge, Face::front);
  EXPECT_EQ(b.foot_strips[0].area.high, (Vec2{108, 60}));
  EXPECT_EQ(b.foot_strips[1].edge, Face::back);
  EXPECT_EQ(b.foot_strips[1].area.low, (Vec2{8, 44 + 200 - 16}));
}

TEST_F(LayoutOf, LinesStandBehindEachOtherByTheirDeepestItems) {
  const BoxLayout b = of("", R"([{ of = "low" }, { of = "block" }, { of = "low", count = 4, line = 2 }]
line_gap = 25)");
  EXPECT_EQ(b.items[2].corner, (Vec3{8, 44 + 430 + 25, 0}));
  EXPECT_TRUE(b.items[0].front_line && !b.items[0].back_line);
  EXPECT_TRUE(!b.items[2].front_line && b.items[2].back_line);
  // The longer line is four of 80, the depth 430 + 25 + 300.
  EXPECT_EQ(b.inside, (Vec3{8 + 320 + 9, 44 + 755 + 36, 280}));
}

TEST_F(LayoutOf, LevelsStandOnTheHighestOfTheOneBelowInTheirLine) {
  const BoxLayout b = of("", R"([{ of = "low" }, { of = "low", line = 2, level = 2 }, { of = "block", line = 2 }])");
  EXPECT_EQ(b.items[1].corner, (Vec3{8, 44 + 300, 220}));
  EXPECT_DOUBLE_EQ(b.inside.z, 220 + 100 + 60);
}

// The plate between the lower blocks is 20 lower than they are, and the one above comes down onto it.
TEST_F(LayoutOf, WhatStandsBetweenComesDownOntoWhatIsLower) {
  const BoxLayout b = of("", R"([{ of = "block", count = 2, between = "plate", level = 2 },
  { of = "block", count = 2, between = "plate" }])");
  EXPECT_EQ(b.items[0].corner, (Vec3{8, 44, 220}));
  EXPECT_EQ(b.items[1].corner, (Vec3{8 + 150, 44 + 10, 200}));
  EXPECT_EQ(b.items[2].corner, (Vec3{8 + 150 + 12, 44, 220}));
  EXPECT_EQ(b.items[4].corner, (Vec3{8 + 150, 44 + 10, 0}));
  EXPECT_DOUBLE_EQ(b.inside.z, 440 + 60);
}

TEST_F(LayoutOf, WhatStandsBetweenStaysUpWhereAWholeItemIsBelow) {
  const BoxLayout b =
      of("", R"([{ of = "block", count = 3 }, { of = "block", count = 2, between = "plate", level = 2 }])");
  EXPECT_EQ(b.items[4].corner, (Vec3{8 + 150, 44 + 10, 220}));
}

TEST_F(LayoutOf, LinesAndLevelsMayBeWrittenInAnyOrder) {
  const auto places = [&](const std::string& row) {
    std::map<std::string, Vec3> out;
    for (const PlacedItem& p : of("", row).items) out[p.name] = p.corner;
    return out;
  };
  const auto first = places(R"([{ of = "block" }, { of = "low", line = 2 }, { of = "plate", level = 2 }])");
  const auto second = places(R"([{ of = "plate", level = 2 }, { of = "low", line = 2 }, { of = "block" }])");
  EXPECT_EQ(first, second);
}

struct HandCase {
  const char* name;
  const char* how;
};
class ArrangementInTheOtherHand : public testing::TestWithParam<HandCase> {
 protected:
  static constexpr const char* row = R"([{ of = "low", turned = 90 }, { of = "block" }, { of = "low", line = 2 },
  { of = "block", level = 2 }]
line_gap = 25)";

  static BoxLayout of(int times, SpecResult& read) {
    std::map<std::string, std::string> files{{"0.toml", std::string(head) + "[box.main]\nrow = " + row + box}};
    for (int i = 1; i <= times; ++i) {
      files[std::to_string(i) + ".toml"] = "fitup = 1\nname = \"box\"\nstart_from = \"" + std::to_string(i - 1) +
                                           ".toml\"\nopposite_hand = \"" + GetParam().how + "\"\n";
    }
    const std::string name = std::to_string(times) + ".toml";
    read = read_spec(name, files[name], {}, [&](const std::string& path) { return Result<std::string>(files[path]); });
    for (const Diagnostic& d : read.diagnostics.all()) ADD_FAILURE() << render(d, read.sources, false);
    return lay_out_box(*read.spec, read.spec->boxes.front());
  }

  static std::vector<Box3> boxes(const BoxLayout& layout) {
    std::vector<Box3> out;
    for (const PlacedItem& p : layout.items) out.push_back({p.corner, p.corner + size_of(p)});
    const auto before = [](const Box3& a, const Box3& b) {
      return std::tuple(a.low.z, a.low.y, a.low.x) < std::tuple(b.low.z, b.low.y, b.low.x);
    };
    std::sort(out.begin(), out.end(), before);
    return out;
  }
};

TEST_P(ArrangementInTheOtherHand, IsTheReflectionAndTwiceIsTheFirst) {
  SpecResult read, once, twice;
  const BoxLayout first = of(0, read);
  const BoxLayout other = of(1, once);
  const bool across = std::string(GetParam().how) == "left-right";
  BoxLayout expected = first;
  for (PlacedItem& p : expected.items) {
    const Vec3 size = size_of(p);
    if (across) p.corner.x = first.inside.x - p.corner.x - size.x;
    if (!across) p.corner.y = first.inside.y - p.corner.y - size.y;
  }
  const auto want = boxes(expected);
  const auto got = boxes(other);
  ASSERT_EQ(want.size(), got.size());
  for (std::size_t i = 0; i < want.size(); ++i) {
    EXPECT_EQ(want[i].low, got[i].low) << i;
    EXPECT_EQ(want[i].high, got[i].high) << i;
  }
  const auto turned_one =
      std::find_if(other.items.begin(), other.items.end(), [](const PlacedItem& p) { return p.quarters != 0; });
  ASSERT_NE(turned_one, other.items.end());
  EXPECT_EQ(turned_one->quarters, across ? 3 : 1);
  EXPECT_EQ(boxes(first).front().low, boxes(of(2, twice)).front().low);
  EXPECT_EQ(to_text(*read.spec), to_text(*twice.spec));
}

INSTANTIATE_TEST_SUITE_P(How, ArrangementInTheOtherHand,
                         testing::Values(HandCase{"left_right", "left-right"}, HandCase{"front_back", "front-back"}),
                         [](const auto& c) { return std::string(c.param.name); });

}  // namespace
}  // namespace fitup

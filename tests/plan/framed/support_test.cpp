// What items stand on, and the rails that follow: sums that can be done on paper.
#include "plan/support.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <map>
#include <set>

#include <fmt/format.h>

#include "plan/framed/planned.h"

namespace fitup::plan {
namespace {

const Box3 unit{{0, 0, 0}, {10, 10, 10}};

TEST(DirectionTo, IsTheAxisAlongWhichTwoBoxesTouchFaceToFace) {
  EXPECT_EQ(direction_to(unit, {{10, 2, 2}, {20, 8, 8}}), axis::x);
  EXPECT_EQ(direction_to(unit, {{-5, 2, 2}, {0, 8, 8}}), axis::minus_x);
  EXPECT_EQ(direction_to(unit, {{2, -5, 2}, {20, 0, 20}}), axis::minus_y);
  EXPECT_EQ(direction_to(unit, {{2, 2, 10.00005}, {20, 20, 20}}), axis::z);
}

TEST(DirectionTo, IsNoneForBoxesApartOverlappingOrTouchingAlongAnEdge) {
  EXPECT_FALSE(direction_to(unit, {{10.1, 2, 2}, {20, 8, 8}}));
  EXPECT_FALSE(direction_to(unit, {{5, 5, 5}, {20, 20, 20}}));
  EXPECT_FALSE(direction_to(unit, {{10, 10, 0}, {20, 20, 10}}));
}

TEST(WithinHull, HoldsBetweenTwoRailsAndOnOneThatIsWide) {
  const std::vector<Box2> rails{{{0, 0}, {4, 100}}, {{20, 0}, {24, 100}}};
  EXPECT_TRUE(within_hull({12, 50}, rails));
  EXPECT_TRUE(within_hull({2, 50}, rails));
  EXPECT_FALSE(within_hull({25, 50}, rails));
  EXPECT_FALSE(within_hull({12, 101}, rails));
}

TEST(WithinHull, TheEdgeItselfDoesNotCarry) {
  EXPECT_FALSE(within_hull({4, 50}, {{{0, 0}, {4, 100}}}));
  EXPECT_FALSE(within_hull({12, 100}, {{{0, 0}, {24, 100}}}));
  EXPECT_FALSE(within_hull({0, 0}, {}));
}

// An L of two strips: its hull is a pentagon, the far corner of the box round it is not in it.
TEST(WithinHull, IsNarrowerThanTheBoxRoundAnAngle) {
  const std::vector<Box2> angle{{{0, 0}, {10, 100}}, {{0, 0}, {100, 10}}};
  EXPECT_TRUE(within_hull({50, 50}, angle));
  EXPECT_FALSE(within_hull({60, 60}, angle));
}

// A block 100 wide, 400 deep and 200 high in a frame of L 40x40x4: walls of 4, legs of 40.
std::string spec(const std::string& block, const std::string& clearance, const std::string& row,
                 const std::string& rails = "") {
  return "fitup = 1\n[item.block]\nsize = [100, 400, 200]\nmass = 10\n" + block +
         "\n[item.plate]\nsize = [40, 400, 150]\nmass = 1\n[box.main]\nrow = [" + row + "]\nclearance = " + clearance +
         "\nframe = { section = \"L 40x40x4\" }\n" + rails + "\n";
}

class Stands : public testing::Test {
 protected:
  void plan(const std::string& text) {
    planned_ = test::plan_text(text);
    ASSERT_TRUE(planned_.result.plan) << planned_.said();
  }
  [[nodiscard]] const Plan& result() const { return *planned_.result.plan; }
  [[nodiscard]] std::vector<Box3> rails() const {
    std::vector<Box3> out;
    for (const Instance* i : test::instances_of(result(), Role::rail)) out.push_back(test::box_of(result(), *i));
    return out;
  }
  [[nodiscard]] bool bears(const std::string& a, const std::string& b) const {
    const auto named = [&](const Joint& j, const std::string& one, const std::string& other) {
      return result().instances[j.a].name == one && result().instances[j.b].name == other;
    };
    return std::any_of(result().joints.begin(), result().joints.end(), [&](const Joint& j) {
      return j.kind == JointKind::bearing && (named(j, a, b) || named(j, b, a));
    });
  }
  test::Planned planned_;
};

constexpr const char* wide = "{ left = 50, right = 50, front = 50, back = 50, top = 10 }";

TEST_F(Stands, WithoutFootStripsOnRailsUnderItsEdges) {
  plan(spec("", wide, "{ of = \"block\" }"));
  // Edges of 20 and margins of 3 make 26, rounded up to 30: round X 64 and X 144.
  ASSERT_EQ(rails().size(), 2U);
  EXPECT_NEAR(rails()[0].low.x, 64 - 15, 1e-9);
  EXPECT_NEAR(rails()[0].high.x, 64 + 15, 1e-9);
  EXPECT_NEAR(rails()[1].low.x, 144 - 15, 1e-9);
  EXPECT_TRUE(bears("block 1", "rail 1"));
  EXPECT_TRUE(bears("block 1", "rail 2"));
}

TEST_F(Stands, OnItsNeighboursRailsIfTheyCarryIt) {
  plan(spec("foot_strips = { width = 30 }", wide, "{ of = \"block\", count = 2, between = \"plate\" }",
            "rails = { margin = 10 }"));
  // Strips 40 apart do not share a rail; rails of 50 reach 10 under the plate from both sides.
  EXPECT_EQ(rails().size(), 4U);
  EXPECT_TRUE(bears("plate 1", "rail 2"));
  EXPECT_TRUE(bears("plate 1", "rail 3"));
}

TEST_F(Stands, OnTheLegsIfTheyCarryItAndThenNoHeightIsKeptForRails) {
  plan(spec("", "{ left = 20, right = 20, front = 20, back = 20, top = 10 }", "{ of = \"block\" }"));
  EXPECT_TRUE(rails().empty());
  EXPECT_TRUE(bears("block 1", "bottom ring member front"));
  EXPECT_TRUE(bears("block 1", "bottom ring member back"));
  // Leg 40, block 200, clearance 10, leg's thickness 4: no 5 for rails.
  EXPECT_NEAR(result().frame_size.z, 40 + 200 + 10 + 4, 1e-9);
}

TEST_F(Stands, OnRailsIfItReachesOverTheLegsTooLittle) {
  plan(spec("", "{ left = 50, right = 50, front = 26.5, back = 26.5, top = 10 }", "{ of = \"block\" }"));
  // The legs end at Y 40, the block begins at 30.5: 9.5 on each, and 10 are asked for.
  EXPECT_EQ(rails().size(), 2U);
  EXPECT_NEAR(result().frame_size.z, 45 + 200 + 10 + 4, 1e-9);
}

TEST_F(Stands, AloneOnOneRailThatIsNotDrawnToTheWall) {
  plan(spec("foot_strips = { width = 50 }", "{ left = 60, right = 30, front = 50, back = 50, top = 10 }",
            "{ of = \"block\" }", "rails = { outer_width = 110 }"));
  // The strips meet at X 64 to 164. From the left inset the rail would reach from 6 to 116; from the right one, at
  // 198 - 6 = 192, from 82: neither carries. So it lies round the middle, at 114.
  ASSERT_EQ(rails().size(), 1U);
  EXPECT_NEAR(rails()[0].low.x, 114 - 55, 1e-9);
  EXPECT_NEAR(rails()[0].high.x, 114 + 55, 1e-9);
}

TEST_F(Stands, OnAnotherItemWhereverTheRowPutsIt) {
  plan(spec("foot_strips = { width = 20 }", "{ left = 20, right = 20, front = 50, back = 50, top = 170 }",
            "{ of = \"plate\", at = [50, 54, 245] }, { of = \"block\" }"));
  EXPECT_TRUE(bears("plate 1", "block 1"));
  EXPECT_EQ(rails().size(), 2U) << "none for what stands on the block";
}

TEST_F(Stands, BesideWhateverItTouches) {
  plan(spec("foot_strips = { width = 20 }", wide,
            "{ of = \"block\", at = [54, 54, 45] }, { of = \"block\", at = [254, 54, 45] }, "
            "{ of = \"block\", at = [154, 54, 45] }"));
  EXPECT_TRUE(bears("block 1", "block 3"));
  EXPECT_TRUE(bears("block 2", "block 3"));
  EXPECT_FALSE(bears("block 1", "block 2"));
}

TEST_F(Stands, UnderItsOwnNameAmongTheRails) {
  std::string text = spec("foot_strips = { width = 20 }", wide, "{ of = \"rail\" }");
  text.replace(text.find("[item.block]"), 12, "[item.rail]");
  plan(text);
  std::set<std::string> names;
  for (const Instance& i : result().instances) EXPECT_TRUE(names.insert(i.name).second) << i.name;
}

TEST_F(Stands, AsItsOwnKindAmongOthersOfItsSize) {
  plan(spec("foot_strips = { width = 20 }\n[item.other]\nsize = [100, 400, 200]\nmass = 12", wide,
            "{ of = \"block\", count = 2, gap = 5 }, { of = \"other\" }"));
  std::map<std::string, double> masses;
  for (const Part& p : result().parts) {
    if (p.role == Role::item) masses[p.name] = p.mass_kg;
  }
  EXPECT_EQ(masses, (std::map<std::string, double>{{"block", 10}, {"other", 12}}));
}

// More kinds between items than there are numbers before the drill guides'.
TEST_F(Stands, AmongManyKindsWhosePrintedAidsHaveEachTheirMark) {
  std::string items = "foot_strips = { width = 20 }\nrods = { thread = \"M6\", at = [[20, 20]], projection = 20 }\n";
  std::string row;
  for (int i = 1; i <= 22; ++i) {
    items += fmt::format("[item.p{}]\nsize = [{}, 400, 150]\nmass = 1\n", i, 10 + i);
    row += fmt::format("{}{{ of = \"block\", count = 2, between = \"p{}\" }}", i > 1 ? ", " : "", i);
  }
  plan(spec(items, wide, row));
  std::set<std::string> marks;
  for (const Part& p : result().parts) EXPECT_TRUE(marks.insert(p.mark).second) << p.mark;
}

// M8 passes holes of 9 (ISO 273), 20 from the edges of an item without foot strips, which otherwise bears on 20: beside the
// hole the rail keeps 3, what is left beside holes in any sheet.
TEST(Rails, reach_over_the_holes_that_hold_an_item_from_below) {
  const test::Planned p = test::plan_text(R"(fitup = 1
name = "pump-box"
title = "Two pumps"
units = "mm"
[item.pump]
size = [220, 260, 240]
mass = 18
mounts = { face = "bottom", at = [[20, 20], [200, 20], [20, 240], [200, 240]], thread = "M8", depth = 16 }
[box.main]
row = [{ of = "pump", count = 2, gap = 60 }]
clearance = { left = 20, right = 20, front = 40, back = 40, top = 60 }
frame = { section = "L 40x40x4", uprights = "40x4" }
rails = { thickness = 5 }
)");
  ASSERT_TRUE(p.result.plan) << p.said();
  const Plan& plan = *p.result.plan;
  for (const double x : {44.0, 224.0, 324.0, 504.0}) {
    const auto rails = test::instances_of(plan, Role::rail);
    const bool over = std::any_of(rails.begin(), rails.end(), [&](const Instance* rail) {
      const Box3 box = test::box_of(plan, *rail);
      return box.low.x <= x - 4.5 - 3 + 1e-9 && box.high.x >= x + 4.5 + 3 - 1e-9;
    });
    EXPECT_TRUE(over) << x;
  }
}

}  // namespace
}  // namespace fitup::plan

// Gussets under the top of a box of plates: their joint in closed form, where they stand, and when they do not.
// Entry: gtest.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <string>
#include <vector>

#include "plan/framed/planned.h"
#include "plan/plate/gusset_shape.h"

namespace fitup::test {
namespace {

using plan::plate::GussetShape;
using std::numbers::pi;

/// The demo of plates, 984 x 518 x 329 mm, its sheet 4 mm.
Planned gusseted(const std::string& gussets) {
  return plan_demo({{"uprights = \"40x4\" }", "uprights = \"40x4\", gussets = " + gussets + " }"}},
                   {{"box.main.build", "plate"}});
}

// The square on both legs, less what lies beyond the line from tip to tip, less the corner that is cut off; its tabs,
// less two half circles of a quarter of the thickness beside each.
TEST(GussetShape, IsATriangleWithItsCornerCutOffAndATab) {
  const GussetShape shape{60, 4, 4, 7.5, 1};
  EXPECT_DOUBLE_EQ(shape.snipe_mm(), 10);
  EXPECT_DOUBLE_EQ(shape.nose_mm(), 4);
  // A fifth of the 50 mm that are welded is 10 mm, in their middle.
  ASSERT_EQ(shape.tabs().size(), 1U);
  EXPECT_NEAR(shape.tabs().front().from_mm, 30, 1e-9);
  EXPECT_NEAR(shape.tabs().front().to_mm, 40, 1e-9);
  const double triangle = 60 * 60 - 56 * 56 / 2.0 - 10 * 10 / 2.0;
  EXPECT_NEAR(shape.profile(3).outer.area_mm2(), triangle + 10 * 3 - 2 * pi / 2, 1e-9);
  const Box2 bounds = shape.profile(3).bounds();
  EXPECT_NEAR(bounds.low.x, -3, 1e-9);
  EXPECT_NEAR(bounds.high.x, 60, 1e-9);
}

TEST(GussetShape, TakesTheRoomOfItsTriangle) {
  const GussetShape shape{60, 4, 4, 7.5, 1};
  EXPECT_TRUE(shape.reaches(-5, 50));
  EXPECT_TRUE(shape.reaches(31, 32));
  EXPECT_FALSE(shape.reaches(32, 32)) << "64 = 60 + 4";
  EXPECT_FALSE(shape.reaches(-5, 60));
  // 2.5 thicknesses of tab and twice 7.5 mm beside it, beside the corner's 10 mm.
  EXPECT_DOUBLE_EQ(shape.least_leg_mm(), 35);
}

TEST(PlateGussets, StandInAllFourCornersUnderTheTop) {
  const Planned p = gusseted("{ leg = 60 }");
  ASSERT_TRUE(p.result.plan) << p.said();
  const Plan& plan = *p.result.plan;
  const auto gussets = instances_of(plan, Role::gusset);
  ASSERT_EQ(gussets.size(), 4U);
  for (const Instance* g : gussets) {
    const Box3 box = box_of(plan, *g);
    // Under the top at Z 325; a tab 4/3 mm short of the wall's outside.
    EXPECT_NEAR(box.high.z, 325, 1e-9) << g->name;
    EXPECT_NEAR(box.low.z, 265, 1e-9) << g->name;
    EXPECT_NEAR(std::min(box.low.x, 984 - box.high.x), 4.0 / 3, 1e-9) << g->name;
    EXPECT_NEAR(box.size().y, 4, 1e-9);
    EXPECT_EQ(g->part, gussets.front()->part) << "all are one part";
  }
  const Box3 left = box_of(plan, *find_instance(plan, "gusset front left"));
  const Box3 right = box_of(plan, *find_instance(plan, "gusset front right"));
  EXPECT_NEAR(left.low.y, right.low.y, 1e-9);
  EXPECT_NEAR(left.low.x, 984 - right.high.x, 1e-9);
}

/// What a wall loses by its slots, mm2, and the boxes of those, by the difference to the wall without.
std::vector<Box2> more_holes(const Plan& with, const Plan& without, const std::string& wall) {
  const auto holes = [&](const Plan& plan) {
    std::vector<Box2> out;
    for (const Loop& hole : std::get<Flat>(plan.parts[find_instance(plan, wall)->part].form).profile.holes) {
      out.push_back(hole.bounds());
    }
    return out;
  };
  std::vector<Box2> more = holes(with);
  for (const Box2& known : holes(without)) {
    const auto same = std::find_if(more.begin(), more.end(), [&](const Box2& b) {
      return std::hypot(b.low.x - known.low.x, b.low.y - known.low.y) < 1e-6;
    });
    if (same != more.end()) more.erase(same);
  }
  return more;
}

// EN 10051 category A lets 4 mm be 0.22 mm thicker, ISO 9013:2017 class 1 the cut be off by 0.20 mm; 0.15 mm of air.
TEST(PlateGussets, HaveTabsInSlotsOfTheWallWithPlayAllRound) {
  const Planned with = gusseted("{ leg = 60 }");
  const Planned without = plan_demo({}, {{"box.main.build", "plate"}});
  ASSERT_TRUE(with.result.plan && without.result.plan) << with.said();
  for (const char* wall : {"left wall", "right wall"}) {
    const auto slots = more_holes(*with.result.plan, *without.result.plan, wall);
    ASSERT_EQ(slots.size(), 2U) << wall;
    for (const Box2& slot : slots) {
      const double wide = 4 + 0.22 + 0.20 + 0.15;
      EXPECT_NEAR(std::min(slot.size().x, slot.size().y), wide, 1e-6);
      // Half circles of a fifth of its width relieve both its ends.
      EXPECT_NEAR(std::max(slot.size().x, slot.size().y), 10 + 0.20 + 0.15 + 2 * wide / 5, 1e-6);
    }
  }
}

// Each is welded to its wall and to the top; it is held under the top before its wall comes.
TEST(PlateGussets, AreSetUpBeforeTheWallThatGoesOverTheirTabs) {
  const Planned p = gusseted("{ leg = 60 }");
  ASSERT_TRUE(p.result.plan) << p.said();
  const Plan& plan = *p.result.plan;
  const auto turn = [&](const std::string& name) {
    const auto at = std::find_if(plan.set_up.begin(), plan.set_up.end(),
                                 [&](const fitup::SetUp& s) { return plan.instances[s.part].name == name; });
    return at - plan.set_up.begin();
  };
  for (const std::string depth : {"front", "back"}) {
    for (const std::string side : {"left", "right"}) {
      const std::string name = "gusset " + depth + " " + side;
      ASSERT_LT(turn(name), static_cast<long>(plan.set_up.size()));
      EXPECT_LT(turn("top"), turn(name));
      EXPECT_LT(turn(name), turn(side + " wall"));
      int welds = 0;
      for (const Joint& j : plan.joints) {
        const bool own = plan.instances[j.a].name == name && j.kind == JointKind::weld;
        const std::string& other = plan.instances[j.b].name;
        welds += own && (other == "top" || other == side + " wall") ? 1 : 0;
      }
      EXPECT_EQ(welds, 2) << name;
    }
  }
}

TEST(PlateGussets, OfTheOppositeHandAreTheReflection) {
  const Planned one = gusseted("{ leg = 60 }");
  const auto files = [&](const std::string&) -> Result<std::string> { return one.read.sources[0].text; };
  const SpecResult read = read_spec("box.toml", "start_from = \"a.toml\"\nopposite_hand = \"left-right\"\n",
                                    {{"box.main.build", "plate"}}, files);
  ASSERT_TRUE(read.spec);
  const auto other = make_plan(lay_out(*read.spec)).plan;
  ASSERT_TRUE(one.result.plan && other) << one.said();
  const Box3 a = box_of(*one.result.plan, *find_instance(*one.result.plan, "gusset back left"));
  const Box3 b = box_of(*other, *find_instance(*other, "gusset back right"));
  EXPECT_NEAR(a.low.x, 984 - b.high.x, 1e-6);
  EXPECT_NEAR(a.low.y, b.low.y, 1e-6);
}

// What it names has room, and a millimetre more has none.
TEST(PlateGussets, AreRefusedWhereTheyWouldReachTooFar) {
  const Planned p = gusseted("{ leg = 150 }");
  EXPECT_FALSE(p.result.plan);
  EXPECT_THAT(p.said(), testing::HasSubstr("gusset-leg"));
  EXPECT_THAT(p.said(), testing::HasSubstr("make frame.gussets.leg at most "));
  const std::string said = p.said();
  const std::string words = "frame.gussets.leg at most ";
  const std::string leg = said.substr(said.find(words) + words.size(), 2);
  EXPECT_TRUE(gusseted("{ leg = " + leg + " }").result.plan) << leg;
  EXPECT_FALSE(gusseted("{ leg = " + std::to_string(std::stoi(leg) + 1) + " }").result.plan) << leg;
}

TEST(PlateGussets, AreNotThereWithoutTheKey) {
  const Planned p = plan_demo({}, {{"box.main.build", "plate"}});
  ASSERT_TRUE(p.result.plan) << p.said();
  EXPECT_TRUE(instances_of(*p.result.plan, Role::gusset).empty());
}

}  // namespace
}  // namespace fitup::test

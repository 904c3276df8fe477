// Tabs of plates that may be turned round, and of those that may not: turned plates are put in their places, and the
// rules of pairs say whether their tabs enter the slots there.
// Entry: gtest.
#include <gtest/gtest.h>

#include <algorithm>
#include <array>

#include "checks/cut_rules.h"
#include "checks/placed.h"
#include "checks/rules.h"
#include "plan/framed/planned.h"

namespace fitup::test {
namespace {

// The same at both ends and at both sides, but for what `left` and `top` say of these faces.
std::string both_ends_alike(const std::string& left, const std::string& top = "",
                            const std::string& sides = "left = 20, right = 20") {
  return two_blocks_in_plates(sides + ", front = 44, back = 44",
                              "face.right = { closed_by = \"plate\", thickness = 2 }\n"
                              "face.left = { closed_by = \"plate\", thickness = 2" +
                                  left + " }\nface.top = { closed_by = \"plate\", thickness = 2" + top + " }\n");
}

constexpr const char* near_the_front = R"(, openings = [{ kind = "round", diameter = 30, room = 0, at = [90, 290] }])";
constexpr const char* of_the_top = R"(, openings = [{ kind = "round", diameter = 30, room = 0, at = [100, 150] }])";

struct Ways {
  int fit = 0;      // ways of seven, turned round or over, in which the plate goes in
  int round = 0;    // of these, not turned over: its marked face looks where it should
  int quarter = 0;  // of these, by a quarter, turned over or not
  bool as_planned = false;
};

/// All proper turns of a plate that leave it in its plane, about its own middle.
Ways ways_in(const Plan& plan, const std::string& name) {
  const Instance* plate = find_instance(plan, name);
  const Flat& flat = std::get<Flat>(plan.parts[plate->part].form);
  const Body body = body_of(plan.parts[plate->part]);
  const Vec2 middle = flat.profile.bounds().middle();
  const Vec3 about{middle.x, middle.y, flat.thickness_mm / 2};
  const auto fits = [&](const Pose& turn) {
    const Pose about_middle = turn.moved(about - turn.point(about));
    const auto here = checks::place(body, plate->pose * about_middle);
    return std::all_of(plan.set_up.begin(), plan.set_up.end(), [&](const SetUp& set) {
      const Instance& other = plan.instances[set.part];
      if (&other == plate) return true;
      const auto there = checks::place(body_of(plan.parts[other.part]), other.pose);
      return checks::decide(here, there) != checks::Decision::overlap;
    });
  };
  Ways ways;
  ways.as_planned = fits(Pose{});
  for (const Vec3 x : {axis::x, axis::minus_x, axis::y, axis::minus_y}) {
    for (const double hand : {1.0, -1.0}) {
      const Vec3 y = hand * cross(axis::z, x);
      if (x == axis::x && hand > 0) continue;
      if (!fits(Pose::at({}, x, y))) continue;
      ++ways.fit;
      ways.round += hand > 0 ? 1 : 0;
      ways.quarter += x == axis::y || x == axis::minus_y ? 1 : 0;
    }
  }
  return ways;
}

Plan plan_of(const std::string& text) {
  Planned planned = plan_text(text);
  EXPECT_TRUE(planned.result.plan) << planned.said();
  return planned.result.plan ? *std::move(planned.result.plan) : Plan{};
}

TEST(Turning, DoesNoHarmWherePlatesAreAlikeAtBothEnds) {
  const Plan plan = plan_of(both_ends_alike(""));
  for (const char* wall : {"left wall", "right wall", "top", "floor"}) {
    const Ways ways = ways_in(plan, wall);
    EXPECT_TRUE(ways.as_planned) << wall;
    EXPECT_GE(ways.fit, 1) << wall;
  }
}

// A hole near the front: turned end for end the wall would have it near the back. Its tabs keep it from going in.
TEST(Turning, OfAWallWithAHoleAtOneEndIsKeptFromByItsSlots) {
  const Plan plan = plan_of(both_ends_alike(near_the_front));
  const Ways left = ways_in(plan, "left wall");
  EXPECT_TRUE(left.as_planned);
  EXPECT_EQ(left.fit, 0);
  EXPECT_GE(ways_in(plan, "right wall").fit, 1) << "which has no hole";
  EXPECT_TRUE(ways_in(plan, "floor").as_planned);
}

TEST(Turning, OfATopWithAHoleOffItsMiddleIsKeptFromByItsTabs) {
  const Plan plan = plan_of(both_ends_alike("", of_the_top));
  const Ways top = ways_in(plan, "top");
  EXPECT_TRUE(top.as_planned);
  EXPECT_EQ(top.fit, 0);
}

// The floor has no other holes than its slots: with rails off its middle it is what is welded on that would be
// elsewhere.
TEST(Turning, OfAFloorWhoseRailsWouldBeElsewhereIsKeptFromByItsTabs) {
  EXPECT_GE(ways_in(plan_of(both_ends_alike("")), "floor").round, 1) << "the rails are even about its middle";
  const Ways floor = ways_in(plan_of(both_ends_alike("", "", "left = 20, right = 60")), "floor");
  EXPECT_TRUE(floor.as_planned);
  EXPECT_EQ(floor.round, 0);
}

// 522 mm square: the inside is 430 + 2 x 44 deep and 2 x 150 + 2 x 109 wide.
TEST(Turning, ByAQuarterIsOfNoUseInASquareBox) {
  const Plan plan = plan_of(both_ends_alike("", "", "left = 109, right = 109"));
  for (const char* plate : {"top", "floor"}) {
    const Instance* instance = find_instance(plan, plate);
    ASSERT_NE(instance, nullptr);
    const Vec3 size = box_of(plan, *instance).size();
    EXPECT_NEAR(size.x, size.y, 4) << "but for tabs";
    EXPECT_EQ(ways_in(plan, plate).quarter, 0) << plate;
  }
}

bool speaks_of_a_slot(const Finding& f) {
  return f.verdict != Verdict::pass && f.message.find("a slot of") != std::string::npos;
}

std::vector<Finding> slots_of(const Plan& plan) {
  std::vector<Finding> found = checks::check_cut_rules(plan);
  std::erase_if(found, [](const Finding& f) { return !speaks_of_a_slot(f); });
  return found;
}

// A slot for a tab is as wide as the tab's sheet: it is refused where the shop says so, and else not asked about; the
// same slots without their tabs are.
TEST(TabSlots, AreNotAskedAboutForBeingAsWideAsTheSheet) {
  Plan plan = plan_of(both_ends_alike(""));
  EXPECT_TRUE(slots_of(plan).empty());
  Plan strict = plan;
  strict.cut_rules.smallest_slot = 1.3;
  const auto refused = slots_of(strict);
  ASSERT_FALSE(refused.empty());
  EXPECT_EQ(refused.front().verdict, Verdict::fail);
  plan.joints.clear();
  const auto asked = slots_of(plan);
  ASSERT_FALSE(asked.empty());
  EXPECT_EQ(asked.front().verdict, Verdict::marginal);
}

}  // namespace
}  // namespace fitup::test

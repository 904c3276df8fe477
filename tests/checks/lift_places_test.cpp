// Lift bosses by rule keep out of the rooms that openings and items ask for.
#include <gtest/gtest.h>

#include <fmt/format.h>

#include "checks/planned.h"
#include "fitup/findings.h"

namespace fitup::test {
namespace {

/// A box with a hole in its left or right plate, `y` from the front, under the top ring's leg.
std::string box(int points, const std::string& side, double y) {
  return fmt::format(R"(
fitup = 1
[item.block]
size = [150, 430, 220]
mass = 23
foot_strips = {{ width = 16 }}
[box.main]
row = [{{ of = "block", count = 3 }}]
clearance = {{ left = 40, right = 45, front = 70, back = 66, top = 60 }}
frame = {{ section = "L 50x50x5" }}
[box.main.face.left]
closed_by = "plate"
[box.main.face.right]
closed_by = "plate"
[lifting]
boss_height = 80  # below the ring's leg
points = {}
[[box.main.face.{}.openings]]
kind = "round"
diameter = 30
at = [{}, 260]
room = 45
)",
                     points, side, y);
}

std::vector<Vec3> bosses(const Planned& planned) {
  std::vector<Vec3> out;
  for (const LiftPoint& point : planned.plan->lift_points) out.push_back(point.at);
  return out;
}

bool overlaps(const Planned& planned) {
  for (const Finding& f : check_by_rules(*planned.plan).all) {
    if (f.check == "overlap" && f.verdict == Verdict::fail) return true;
  }
  return false;
}

TEST(LiftPlaces, TwoGiveWayToOppositeSidesSoThatTheyStayOverTheMiddle) {
  const auto free = planned("box.toml", box(2, "left", 100));
  ASSERT_TRUE(free->plan);
  const double middle = free->plan->frame_size.y / 2;
  ASSERT_EQ(bosses(*free).size(), 2U);
  EXPECT_NEAR(bosses(*free)[0].y, middle, 1e-6);
  EXPECT_NEAR(bosses(*free)[1].y, middle, 1e-6);
  for (const char* side : {"left", "right"}) {
    const auto blocked = planned("box.toml", box(2, side, middle));
    ASSERT_TRUE(blocked->plan);
    const auto at = bosses(*blocked);
    ASSERT_EQ(at.size(), 2U);
    EXPECT_NEAR(at[0].y + at[1].y, 2 * middle, 1e-6);
    // The hole's half and the boss's, and no more than a step of a millimetre beyond.
    const double collar = tables::find_eye("M10")->collar_mm;
    EXPECT_GE(std::abs(at[0].y - middle), 15 + collar / 2 - 1e-6);
    EXPECT_LT(std::abs(at[0].y - middle), 15 + collar / 2 + 1);
    EXPECT_LT(at[std::string(side) == "left" ? 0 : 1].y, middle) << "the one in the way goes to the front";
    EXPECT_FALSE(overlaps(*blocked));
  }
}

TEST(LiftPlaces, FourGoInwardTogether) {
  const auto free = planned("box.toml", box(4, "left", 250));
  ASSERT_TRUE(free->plan);
  const double first = bosses(*free)[0].y;
  const auto blocked = planned("box.toml", box(4, "left", first));
  ASSERT_TRUE(blocked->plan);
  const auto at = bosses(*blocked);
  ASSERT_EQ(at.size(), 4U);
  EXPECT_GT(at[0].y, first);
  EXPECT_NEAR(at[0].y + at[1].y, blocked->plan->frame_size.y, 1e-6);
  EXPECT_NEAR(at[0].y, at[2].y, 1e-6);
  EXPECT_FALSE(overlaps(*blocked));
}

TEST(LiftPlaces, WhereTheWholeSideIsKeptClearTheCheckSaysWhatIsInTheWay) {
  std::string text = box(2, "left", 250);
  text.replace(text.find("diameter = 30"), 13, "size = [30, 30]");
  text.replace(text.find("\"round\""), 7, "\"rectangle\"");
  const auto small = planned("box.toml", text);
  ASSERT_TRUE(small->plan);
  const double deep = small->plan->frame_size.y;
  text.replace(text.find("[30, 30]"), 8, fmt::format("[{}, 30]", deep - 140));
  text.replace(text.find("at = [250, 260]"), 15, fmt::format("at = [{}, 260]", deep / 2));
  const auto all = planned("box.toml", text);
  ASSERT_TRUE(all->plan) << all->diagnostics.all().size();
  EXPECT_TRUE(overlaps(*all));
}

}  // namespace
}  // namespace fitup::test

// End cuts where an obstacle only just comes near: beside its end, in its root, in the member's own root. Each row
// is worked by hand from the sections' sizes (EN 10056-1: root radius of L 40x40x4 6, of L 50x50x4 7, of L 80x80x8
// 10). The bar runs along Y from 0; the gap is 1 mm unless it is said otherwise.
#include <gtest/gtest.h>

#include <ostream>

#include "plan/sound.h"
#include "plan/stand.h"

namespace fitup::test {
namespace {

using plan::Obstacle;

struct Case {
  const char* name;
  Obstacle bar;
  std::vector<Obstacle> earlier;
  const char* leg_a;  // at the start
  const char* leg_b;
  double slack_mm;  // how far a step may stand from what it yields to, and why
  double gap_mm = 1;
};

// Heel at the outer top edge: leg A lies (or B, of a bar across), the other one hangs.
Obstacle hanging_bar() { return {section("L 40x40x4"), Pose::at({0, 0, 0}, axis::x, axis::minus_z), 400, "bar"}; }
// Heel at the lower left edge: leg A lies, leg B stands up; the root lies above and to the right.
Obstacle standing_bar() { return {section("L 40x40x4"), Pose::at({0, 0, 0}, axis::z, axis::x), 400, "bar"}; }

// Across the bar from x = `from` to `to`, top flush with it, one leg hanging in the front plane.
Obstacle front(const std::string& size, double from, double to, const std::string& name = "front") {
  return {section(size), Pose::at({from, 0, 0}, axis::minus_z, axis::y), to - from, name};
}

const std::vector<Case>& cases() {
  static const std::vector<Case> all{
      // The front one ends 0.4 beside the bar: grown it reaches 0.6 into it, over the heel. Heel and hanging leg go as
      // if it ran on, the lying leg beyond the heel stays. Corner to corner they stand hypot(0.4, 1) apart.
      {"beside_the_far_end_of_an_obstacle",
       hanging_bar(),
       {front("L 40x40x4", -300, -0.4)},
       "0-4:41 4-40:0",
       "0-5:41 5-40:5 @5 c5",
       1.08},
      // The same from the other side: it begins 0.4 beyond the lying leg's toe and takes 0.6 of it.
      {"beside_the_near_end_of_an_obstacle",
       hanging_bar(),
       {front("L 40x40x4", 40.4, 300)},
       "0-39.4:0 39.4-40:41",
       "0-40:0",
       1.08},
      // Two from either side meet in the hanging leg's thickness, 1 apart, both 4 thick: the larger root, 7 - 1,
      // counts.
      {"before_two_roots_in_one_corner",
       hanging_bar(),
       {front("L 40x40x4", -300, 1, "first"), front("L 50x50x4", 2, 300, "second")},
       "0-40:46",
       "0-5:46 5-40:0 @5 c6",
       1.0001},
      // Heel inside at y = 50, gap 0.5: all goes to 50.5. The root opens towards the end, in front of the leg that is
      // already cut away behind it, and takes no more.
      {"behind_a_root_that_opens_towards_the_end",
       hanging_bar(),
       {{section("L 50x50x4"), Pose::at({-100, 50, 0}, axis::minus_y, axis::minus_z), 300, "inside"}},
       "0-40:0",
       "0-40:0",
       0.5001,
       0.5},
      // A flat over the lying leg, its end 1 beside the standing one, 7 to 11 high; grown 6 high, 2 above the leg's
      // face: there the bar's own root is 6 - sqrt(36 - 16) wide. The standing leg loses its side of the root, 6 to 10
      // high, and with it what is below.
      {"whose_own_root_passes_below_a_flat",
       standing_bar(),
       {{section("40x4"), Pose::at({5, 0, 7}, axis::y, axis::z), 300, "flat"}},
       "0-10:41 10-40:0",
       "0-5.52786:41 5.52786-40:0",
       3.2},
      // Inside the root of an angle of which neither leg comes near: its under side 12 high, its standing face 1.8
      // before the end, and it begins 1 beside the standing leg. Grown, the root has radius 9 and its corner is 11 high
      // and 0.8 before the end. 10 high, where the bar's own root ends, it reaches 8.2 - sqrt(81 - 64) along the bar:
      // so far the root of the lying leg goes. Seen from the standing leg it is a corner that takes 5.709 to 11 high
      // back to 8.2, and the 5.709 below are no tongue; the square where the legs cross goes with them, 8.062 from the
      // nearest of the obstacle.
      {"inside_the_root_of_an_obstacle",
       standing_bar(),
       {{section("L 80x80x8"), Pose::at({5, -9.8, 20}, axis::minus_z, axis::y), 300, "large"}},
       "0-11:8.2 11-40:0",
       "0-4:8.2 4-10:4.07689 10-40:0",
       8.1},
  };
  return all;
}

void PrintTo(const Case& c, std::ostream* out) { *out << c.name; }

class EndCutCase : public testing::TestWithParam<Case> {};

TEST_P(EndCutCase, is_as_worked_by_hand_and_sound) {
  const Case& c = GetParam();
  const Yielded bar = yield(c.bar, c.earlier, c.gap_mm);
  ASSERT_TRUE(bar.result.ok) << bar.result.problem;
  EXPECT_EQ(to_words(bar.member.start.a), c.leg_a);
  EXPECT_EQ(to_words(bar.member.start.b), c.leg_b);
  EXPECT_EQ(bar.member.end, plan::square_cut(c.bar.section));
  expect_sound(c.bar, bar, c.earlier, c.gap_mm, c.slack_mm);
}

INSTANTIATE_TEST_SUITE_P(Bar, EndCutCase, testing::ValuesIn(cases()),
                         [](const auto& row) { return std::string(row.param.name); });

}  // namespace
}  // namespace fitup::test

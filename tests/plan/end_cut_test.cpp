// End cuts, each case worked by hand from the sections' sizes (EN 10056-1: L 40x40x4 has root radius 6, L 50x50x5
// and L 50x50x4 7, L 30x30x3 5, L 65x65x6 9). The corner is the front-left top one of a frame unless it is said
// otherwise; the gap is 1 mm.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "plan/rules.h"
#include "plan/sound.h"
#include "plan/stand.h"

namespace fitup::test {
namespace {

using plan::Obstacle;

constexpr double wide = 984;
constexpr double deep = 518;
constexpr double high = 329;

// Ring members with the heel at the outer top edge: one leg lies on top, one hangs.
Obstacle front(const std::string& size) {
  return {section(size), Pose::at({0, 0, high}, axis::minus_z, axis::y), wide, "front"};
}
Obstacle back(const std::string& size) {
  return {section(size), Pose::at({0, deep, high}, axis::minus_y, axis::minus_z), wide, "back"};
}
// Leg A lies, leg B hangs.
Obstacle left(const std::string& size) {
  return {section(size), Pose::at({0, 0, high}, axis::x, axis::minus_z), deep, "left"};
}
// Leg A hangs, leg B lies.
Obstacle right(const std::string& size) {
  return {section(size), Pose::at({wide, 0, high}, axis::minus_z, axis::minus_x), deep, "right"};
}
// Heel in the corner: leg A in the front plane, leg B in the left one.
Obstacle angle_upright(const std::string& size) {
  return {section(size), Pose::at({0, 0, 0}, axis::x, axis::y), high, "upright"};
}
// In the left plane, its width from the front.
Obstacle flat_upright(const std::string& size) {
  const Section& s = section(size);
  return {s, Pose::at({s.thickness_mm, 0, 0}, axis::y, axis::minus_x), high, "upright"};
}

// Every step comes as near as the gap to what it yields to: nothing is cut back for nothing.
constexpr double at_the_gap = 1.0 + 1e-4;

TEST(EndCut, of_equal_angles_takes_the_lying_leg_and_notches_the_hanging_one) {
  // The front member, grown by 1, fills 0..41 deep over 1..-5 high and 0..5 deep over 1..-41 high.
  // Lying leg (0..-4 high): back to 41. Hanging leg: over its first 5 mm back to 41, below back to 5.
  // The front one's root (6 - 1 = 5) fills the corner at 5: a chamfer of 5. The real end is 5 behind the nominal one.
  const std::vector<Obstacle> earlier{front("L 40x40x4"), back("L 40x40x4")};
  const Yielded bar = yield(left("L 40x40x4"), earlier);
  for (const EndCut* end : {&bar.member.start, &bar.member.end}) {
    EXPECT_EQ(to_words(end->a), "0-40:36");
    EXPECT_EQ(to_words(end->b), "0-5:36 5-40:0 @5 c5");
  }
  EXPECT_DOUBLE_EQ(bar.member.length_mm, deep - 10);
  EXPECT_EQ(bar.pose.origin(), (Vec3{0, 5, high}));
  expect_sound(left("L 40x40x4"), bar, earlier, 1, at_the_gap);
}

TEST(EndCut, of_the_opposite_side_is_the_same_with_the_legs_exchanged) {
  const std::vector<Obstacle> earlier{front("L 40x40x4"), back("L 40x40x4")};
  const Yielded one = yield(left("L 40x40x4"), earlier);
  const Yielded other = yield(right("L 40x40x4"), earlier);
  EXPECT_EQ(other.member.start, (EndCut{one.member.start.b, one.member.start.a}));
  EXPECT_EQ(other.member.end, (EndCut{one.member.end.b, one.member.end.a}));
  expect_sound(right("L 40x40x4"), other, earlier, 1, at_the_gap);
}

TEST(EndCut, rounds_the_tongue_where_a_radius_is_asked_for) {
  const std::vector<Obstacle> earlier{front("L 40x40x4"), back("L 40x40x4")};
  const Yielded bar = yield(left("L 40x40x4"), earlier, 1, CornerKind::radius);
  EXPECT_EQ(to_words(bar.member.start.b), "0-5:36 5-40:0 @5 r5");
  expect_sound(left("L 40x40x4"), bar, earlier, 1, at_the_gap);
}

// Plane geometry: the tongue's edges lie along the grown faces, and the grown fillet of radius r leaves these at
// r from the corner, not before. A chamfer of (2 - sqrt 2) r is tangent to the fillet in the middle only; its ends
// stand in it by r - sqrt(r^2 - ((sqrt 2 - 1) r)^2) = 0.09 r.
TEST(EndCut, chamfer_is_the_grown_root_radius_and_not_less) {
  const std::vector<Obstacle> earlier{front("L 40x40x4"), back("L 40x40x4")};
  Yielded bar = yield(left("L 40x40x4"), earlier);
  for (EndCut* end : {&bar.member.start, &bar.member.end}) end->b.corners.front().size_mm = (2 - std::sqrt(2.0)) * 5;
  const auto gap = solid::distance_mm(built(bar.member), bar.pose, rolled(earlier[0]), earlier[0].pose);
  ASSERT_TRUE(gap);
  // From the chamfer's end (2.9289, 0) to the fillet of radius 6 about (5, 5): 6 - hypot(2.0711, 5) = 0.5880.
  EXPECT_NEAR(*gap, 6 - std::hypot(5 - (2 - std::sqrt(2.0)) * 5, 5), 1e-6);
}

TEST(EndCut, of_a_larger_angle_cuts_off_what_would_be_a_stub_below_the_smaller_ones_toe) {
  // 40x40x4 ahead of 50x50x5: lying leg 41. Hanging leg: 0..5 to 41, 5..41 to 5, 41..50 not touched: 9 mm of stub,
  // less than 10, goes back to 5. Own thickness 5 = the first band.
  const std::vector<Obstacle> earlier{front("L 40x40x4"), back("L 40x40x4")};
  const Yielded bar = yield(left("L 50x50x5"), earlier);
  EXPECT_EQ(to_words(bar.member.start.a), "0-50:36");
  EXPECT_EQ(to_words(bar.member.start.b), "0-5:36 5-50:0 @5 c5");
  EXPECT_EQ(bar.member.end, bar.member.start);
  expect_sound(left("L 50x50x5"), bar, earlier, 1, at_the_gap);
}

TEST(EndCut, of_a_much_larger_angle_keeps_the_tongue_that_passes_below) {
  // 65x65x6: lying leg 41; hanging leg: its first 6 mm (the square that both legs share) to 41, 6..41 to 5,
  // 41..65 to the nominal end. The tongue's corner stands 1 mm below the grown face: the fillet of 5 is 4 long there.
  const std::vector<Obstacle> earlier{front("L 40x40x4"), back("L 40x40x4")};
  const Yielded bar = yield(left("L 65x65x6"), earlier);
  EXPECT_EQ(to_words(bar.member.start.a), "0-65:41");
  EXPECT_EQ(to_words(bar.member.start.b), "0-6:41 6-41:5 41-65:0 @6 c4");
  EXPECT_DOUBLE_EQ(bar.member.length_mm, deep);
  expect_sound(left("L 65x65x6"), bar, earlier, 1, at_the_gap);
}

TEST(EndCut, of_a_smaller_angle_is_notched_by_the_larger_ones_thickness) {
  // 50x50x5 ahead of 30x30x3: lying leg 51; hanging leg 0..6 to 51, 6..30 to 6; root 7 - 1.
  const std::vector<Obstacle> earlier{front("L 50x50x5"), back("L 50x50x5")};
  const Yielded bar = yield(left("L 30x30x3"), earlier);
  EXPECT_EQ(to_words(bar.member.start.a), "0-30:45");
  EXPECT_EQ(to_words(bar.member.start.b), "0-6:45 6-30:0 @6 c6");
  EXPECT_DOUBLE_EQ(bar.member.length_mm, deep - 12);
  expect_sound(left("L 30x30x3"), bar, earlier, 1, at_the_gap);
}

TEST(EndCut, of_an_upright_under_equal_members_is_square) {
  // Both hanging legs end at 40, grown 41.
  const std::vector<Obstacle> earlier{front("L 40x40x4"), left("L 40x40x4")};
  const Yielded angle = yield(angle_upright("L 30x30x3"), earlier);
  EXPECT_EQ(angle.member.end, plan::square_cut(section("L 30x30x3")));
  EXPECT_DOUBLE_EQ(angle.member.length_mm, high - 41);
  expect_sound(angle_upright("L 30x30x3"), angle, earlier, 1, at_the_gap);
  const Yielded flat = yield(flat_upright("40x4"), earlier);
  EXPECT_EQ(flat.member.end, plan::square_cut(section("40x4")));
  EXPECT_DOUBLE_EQ(flat.member.length_mm, high - 41);
  expect_sound(flat_upright("40x4"), flat, earlier, 1, at_the_gap);
}

TEST(EndCut, of_a_flat_upright_steps_where_the_ring_members_differ) {
  // 50x50x5 in front takes 0..6 back to 51, 40x40x4 at the left all to 41.
  const std::vector<Obstacle> earlier{front("L 50x50x5"), left("L 40x40x4")};
  const Yielded bar = yield(flat_upright("40x4"), earlier);
  EXPECT_EQ(to_words(bar.member.end.a), "0-6:10 6-40:0");
  EXPECT_EQ(to_words(bar.member.start.a), "0-40:0");
  EXPECT_DOUBLE_EQ(bar.member.length_mm, high - 41);
  expect_sound(flat_upright("40x4"), bar, earlier, 1, at_the_gap);
}

TEST(EndCut, of_three_unequal_members_at_one_corner) {
  // 50x50x5 in front; 40x40x4 at the left yields to it: 51 and 0..6, root 6; then the upright 30x30x3 to both:
  // its front leg to 51; its left leg 0..6 to 51 (front), 6..30 to 41 (left).
  const std::vector<Obstacle> before_left{front("L 50x50x5"), back("L 50x50x5")};
  const Yielded side = yield(left("L 40x40x4"), before_left);
  EXPECT_EQ(to_words(side.member.start.a), "0-40:45");
  EXPECT_EQ(to_words(side.member.start.b), "0-6:45 6-40:0 @6 c6");
  expect_sound(left("L 40x40x4"), side, before_left, 1, at_the_gap);
  const std::vector<Obstacle> before_upright{front("L 50x50x5"), left("L 40x40x4")};
  const Yielded upright = yield(angle_upright("L 30x30x3"), before_upright);
  EXPECT_EQ(to_words(upright.member.end.a), "0-30:10");
  EXPECT_EQ(to_words(upright.member.end.b), "0-6:10 6-30:0");
  EXPECT_DOUBLE_EQ(upright.member.length_mm, high - 41);
  expect_sound(angle_upright("L 30x30x3"), upright, before_upright, 1, at_the_gap);
}

TEST(EndCut, levels_a_step_that_no_saw_makes) {
  // Ring members of 45 and 46 effective depth (the left one is 1 mm higher): 46 and 45, levelled to 46.
  Obstacle higher = left("L 45x45x5");
  higher.pose = higher.pose.moved({0, 0, 1});
  const std::vector<Obstacle> earlier{front("L 45x45x5"), higher};
  const Yielded bar = yield(flat_upright("40x4"), earlier);
  EXPECT_EQ(to_words(bar.member.end.a), "0-40:0");
  EXPECT_DOUBLE_EQ(bar.member.length_mm, high - 46);
  expect_sound(flat_upright("40x4"), bar, earlier, 1, at_the_gap);
}

TEST(EndCut, of_a_flat_on_edge_is_notched_like_a_hanging_leg) {
  // Flat 40x4 on edge between front and back, its upper edge flush with their tops.
  const std::vector<Obstacle> earlier{front("L 40x40x4"), back("L 40x40x4")};
  const Obstacle flat{section("40x4"), Pose::at({104, 0, high}, axis::minus_z, axis::minus_x), deep, "cross bar"};
  const Yielded bar = yield(flat, earlier);
  EXPECT_EQ(to_words(bar.member.start.a), "0-5:36 5-40:0 @5 c5");
  EXPECT_EQ(bar.member.start, bar.member.end);
  expect_sound(flat, bar, earlier, 1, at_the_gap);
}

TEST(EndCut, of_a_lying_flat_is_square_before_the_lying_leg) {
  const std::vector<Obstacle> earlier{front("L 40x40x4"), back("L 40x40x4")};
  const Obstacle flat{section("40x4"), Pose::at({100, 0, high - 4}, axis::minus_x, axis::z), deep, "cross bar"};
  const Yielded bar = yield(flat, earlier);
  EXPECT_EQ(to_words(bar.member.start.a), "0-40:0");
  EXPECT_DOUBLE_EQ(bar.member.length_mm, deep - 82);
  expect_sound(flat, bar, earlier, 1, at_the_gap);
}

TEST(EndCut, of_an_angle_before_a_lying_flat_has_no_corner_to_take_off) {
  // A flat has no root: the hanging leg reaches to the nominal end below it.
  const Obstacle flat{section("40x4"), Pose::at({0, 0, high - 4}, axis::y, axis::z), wide, "front"};
  const Yielded bar = yield(left("L 40x40x4"), {flat});
  EXPECT_EQ(to_words(bar.member.start.a), "0-40:41");
  EXPECT_EQ(to_words(bar.member.start.b), "0-5:41 5-40:0");
  EXPECT_EQ(bar.member.end, plan::square_cut(section("L 40x40x4")));
  expect_sound(left("L 40x40x4"), bar, {flat}, 1, at_the_gap);
}

TEST(EndCut, of_a_bar_lapped_inside_an_angle_ends_beyond_its_root) {
  // The bar lies under the lying legs of left and right, 200 from the front: thickness 4 + root 6 + gap 1 at each end.
  std::vector<Obstacle> earlier{left("L 40x40x4"), right("L 40x40x4")};
  for (Obstacle& o : earlier) o.lapped = true;
  const Obstacle flat{section("40x4"), Pose::at({0, 200, high - 8}, axis::y, axis::z), wide, "cross bar"};
  const Yielded bar = yield(flat, earlier);
  ASSERT_TRUE(bar.result.ok) << bar.result.problem;
  EXPECT_EQ(to_words(bar.member.start.a), "0-40:0");
  EXPECT_EQ(to_words(bar.member.end.a), "0-40:0");
  EXPECT_DOUBLE_EQ(bar.member.length_mm, wide - 22);
  EXPECT_DOUBLE_EQ(bar.pose.origin().x, 11);
  EXPECT_TRUE(shape_faults(bar.member).empty());
  expect_same_volumes(bar.member);
  // It touches the lying legs; their roots begin 10 from the heel, 1 mm short of it.
  for (const Obstacle& o : earlier) {
    const auto gap = solid::distance_mm(built(bar.member), bar.pose, rolled(o), o.pose);
    ASSERT_TRUE(gap);
    EXPECT_NEAR(*gap, 0, 1e-6);
    const auto shared = solid::common_volume_mm3(built(bar.member), bar.pose, rolled(o), o.pose);
    ASSERT_TRUE(shared);
    EXPECT_EQ(*shared, 0);
  }
}

TEST(EndCut, of_a_member_behind_a_leg_that_stands_inside_loses_no_half) {
  // The front angle's heel is inside: its hanging leg stands 36..40 behind the nominal end, so that 0..35 of the
  // hanging leg would hang on nothing. All of it goes to 41.
  const Obstacle inside{section("L 40x40x4"), Pose::at({0, 40, high}, axis::minus_y, axis::minus_z), wide, "front"};
  const Yielded bar = yield(left("L 40x40x4"), {inside});
  EXPECT_EQ(bar.member.start, plan::square_cut(section("L 40x40x4")));
  EXPECT_DOUBLE_EQ(bar.member.length_mm, deep - 41);
  expect_sound(left("L 40x40x4"), bar, {inside}, 1, at_the_gap);
}

TEST(EndCut, of_a_member_crossed_mid_run_is_a_problem_and_changes_nothing) {
  const Obstacle belt{section("40x4"), Pose::at({-100, 0, 140}, axis::y, axis::z), 400, "belt"};
  for (const Obstacle& upright : {angle_upright("L 30x30x3"), flat_upright("40x4")}) {
    const Yielded bar = yield(upright, {belt});
    EXPECT_FALSE(bar.result.ok);
    EXPECT_EQ(bar.result.problem, "belt crosses it from 139 mm to 145 mm of its 329 mm");
    EXPECT_EQ(bar.member.start, plan::square_cut(upright.section));
    EXPECT_EQ(bar.member.length_mm, high);
    EXPECT_EQ(bar.pose, upright.pose);
  }
}

TEST(EndCut, of_a_member_that_would_not_keep_its_mid_length_is_a_problem) {
  // 50x50x5 takes 51 from the start: of 104 that is less than half, of 90 it is more, though 39 would stay.
  Obstacle bar = left("L 40x40x4");
  bar.length_mm = 104;
  EXPECT_TRUE(yield(bar, {front("L 50x50x5")}).result.ok);
  bar.length_mm = 90;
  const Yielded refused = yield(bar, {front("L 50x50x5")});
  EXPECT_FALSE(refused.result.ok);
  EXPECT_EQ(refused.result.problem, "front crosses it from 0 mm to 51 mm of its 90 mm");
}

TEST(EndCut, of_a_belt_that_takes_one_leg_mid_run_is_a_problem_too) {
  // It passes through the front leg only.
  const Obstacle belt{section("40x4"), Pose::at({20, 300, 140}, axis::x, axis::z), 400, "belt"};
  EXPECT_FALSE(yield(angle_upright("L 30x30x3"), {belt}).result.ok);
}

TEST(EndCut, cuts_off_with_the_neighbour_what_is_too_short_to_stand_beyond_it) {
  // A belt 4 high at 8 above the foot: 7 mm would stand below it. At 20 it is a crossing.
  const auto belt = [](double z) {
    return Obstacle{section("40x4"), Pose::at({-100, 0, z}, axis::y, axis::z), 400, "belt"};
  };
  const Yielded bar = yield(flat_upright("40x4"), {belt(8)});
  ASSERT_TRUE(bar.result.ok) << bar.result.problem;
  EXPECT_DOUBLE_EQ(bar.member.length_mm, high - 13);
  EXPECT_DOUBLE_EQ(bar.pose.origin().z, 13);
  EXPECT_FALSE(yield(flat_upright("40x4"), {belt(20)}).result.ok);
  // Unless what is below it goes anyway.
  EXPECT_TRUE(yield(flat_upright("40x4"), {belt(20), belt(12), belt(4)}).result.ok);
}

TEST(EndCut, leaves_a_member_that_nothing_touches_as_it_is) {
  const Yielded bar = yield(left("L 40x40x4"), {right("L 40x40x4")});
  ASSERT_TRUE(bar.result.ok);
  EXPECT_EQ(bar.member.start, plan::square_cut(section("L 40x40x4")));
  EXPECT_EQ(bar.member.length_mm, deep);
}

TEST(EndCut, of_a_member_with_nothing_left_between_its_neighbours_is_a_problem) {
  // 41 go at each end: of 100 there are 18 left, of 90 only 8, less than the 10 of a stub.
  const auto between = [](double length) {
    Obstacle end = back("L 40x40x4");
    end.pose = end.pose.moved({0, length - deep, 0});
    Obstacle bar = left("L 40x40x4");
    bar.length_mm = length;
    return yield(bar, {front("L 40x40x4"), end});
  };
  EXPECT_TRUE(between(100).result.ok) << between(100).result.problem;
  EXPECT_FALSE(between(90).result.ok);
  EXPECT_EQ(between(90).result.problem, "only 8 mm of its 90 mm would be left whole between its neighbours");
}

TEST(EndCut, takes_the_gap_that_is_asked_for) {
  // Gap 2: 42, 6, root 4. Gap 0.5: 40.5, 4.5, 5.5. Gap 6 is the whole root radius: no corner.
  const std::vector<Obstacle> earlier{front("L 40x40x4"), back("L 40x40x4")};
  const auto words = [&](double gap) {
    const Yielded bar = yield(left("L 40x40x4"), earlier, gap);
    expect_sound(left("L 40x40x4"), bar, earlier, gap, gap + 1e-4);
    return to_words(bar.member.start.b);
  };
  EXPECT_EQ(words(2), "0-6:36 6-40:0 @6 c4");
  EXPECT_EQ(words(0.5), "0-4.5:36 4.5-40:0 @4.5 c5.5");
  EXPECT_EQ(words(6), "0-10:36 10-40:0");
}

// Every heel position of the front member against every one of the left member.
class EveryAttitude : public testing::TestWithParam<std::tuple<int, int, int>> {};

TEST_P(EveryAttitude, is_sound_or_refused) {
  const auto [front_quarter, left_quarter, upright_quarter] = GetParam();
  const Obstacle f = standing("front", section("L 50x50x5"), axis::x, front_quarter, {0, 0, 300}, 400);
  const Obstacle l = standing("left", section("L 40x40x4"), axis::y, left_quarter, {0, 0, 310}, 400);
  const Obstacle u = standing("upright", section("L 30x30x3"), axis::z, upright_quarter, {0, 0, 0}, 350);
  const Yielded side = yield(l, {f});
  if (side.result.ok) {
    expect_sound(l, side, {f}, 1, 11);
  } else {
    // Only where the front one's standing leg is inside, 45..50 from the nominal end, and its lying leg below.
    EXPECT_EQ(front_quarter, 1) << side.result.problem;
  }
  const Yielded upright = yield(u, {f, l});
  // Its nominal end is the frame's top: where nothing of the ring stands in its way below the top leg, a leg across
  // it is a crossing that is said.
  if (upright.result.ok) {
    expect_sound(u, upright, {f, l}, 1, 11);
  } else {
    EXPECT_THAT(upright.result.problem, testing::HasSubstr("crosses it from"));
  }
}

INSTANTIATE_TEST_SUITE_P(OfThreeUnequalMembers, EveryAttitude,
                         testing::Combine(testing::Range(0, 4), testing::Range(0, 4), testing::Range(0, 4)));

}  // namespace
}  // namespace fitup::test

// Mitred ends: volume in closed form, outline, bounding prisms against the kernel, and what is refused. Frames of
// mitred members stand in members_of_demo_test.cpp.
#include "plan/mitre.h"

#include <gtest/gtest.h>

#include <cmath>

#include "fitup/tolerances.h"
#include "plan/same_part.h"
#include "plan/sound.h"
#include "plan/stand.h"

namespace fitup::test {
namespace {

Member mitred(const Section& s, double length, std::optional<Leg> start, std::optional<Leg> end) {
  Member m{s, length, plan::square_cut(s), plan::square_cut(s), {}};
  m.start.mitre = start;
  m.end.mitre = end;
  return m;
}

Section sharp_angle() {
  Section s;
  s.shape = SectionShape::angle;
  s.designation = "sharp";
  s.leg_a_mm = 40;
  s.leg_b_mm = 40;
  s.thickness_mm = 4;
  return s;
}

TEST(Mitre, takes_the_sections_first_moment_about_the_heel_at_each_end) {
  // At x from the heel it takes x: of the lying leg, 40 x 4, 20 on average, of the rest of the hanging one, 36 x 4, 2.
  const double lost = 40 * 4 * 20 + 36 * 4 * 2;
  EXPECT_NEAR(volume_mm3(part_of(mitred(sharp_angle(), 500, Leg::a, {}))), 304 * 500 - lost, 1e-6);
  EXPECT_NEAR(volume_mm3(part_of(mitred(sharp_angle(), 500, Leg::b, Leg::b))), 304 * 500 - 2 * lost, 1e-6);
  EXPECT_NEAR(volume_mm3(part_of(mitred(sharp_angle(), 500, Leg::a, Leg::b))), 304 * 500 - 2 * lost, 1e-6);
}

TEST(Mitre, is_the_solid_that_its_numbers_say_for_every_leg_and_end) {
  for (const char* size : {"L 40x40x4", "L 30x30x3", "L 80x80x10", "L 2x2x3/16 in"}) {
    for (const auto& [start, end] : {std::pair<std::optional<Leg>, std::optional<Leg>>{Leg::a, {}},
                                     {{}, Leg::a},
                                     {Leg::b, Leg::b},
                                     {Leg::a, Leg::b}}) {
      SCOPED_TRACE(size);
      expect_same_volumes(mitred(section(size), 400, start, end));
    }
  }
}

TEST(Mitre, of_an_end_leaves_the_other_end_its_cope) {
  Member m = mitred(section("L 40x40x4"), 400, Leg::a, {});
  m.end.a.steps = {{0, 40, 36}};
  m.end.b.steps = {{0, 5, 36}, {5, 40, 0}};
  m.end.b.corners = {{5, CornerKind::chamfer, 5}};
  m.holes = {{Leg::a, 100, 25, 9, HoleKind::clear, "bolt"}, {Leg::b, 20, 25, 9, HoleKind::clear, "bolt"}};
  expect_same_volumes(m);
}

TEST(Mitre, outline_is_slanted_in_its_leg_and_begins_behind_the_bevel_in_the_other) {
  const Member m = mitred(section("L 40x40x4"), 400, Leg::a, Leg::a);
  EXPECT_NEAR(kept_outline(m, Leg::a).area_mm2(), 40 * 360, 1e-9);
  EXPECT_NEAR(kept_outline(m, Leg::b).area_mm2(), 40 * 392, 1e-9);
  EXPECT_NEAR(kept_outline(m, Leg::b).bounds().low.x, 4, 1e-9);
  EXPECT_FALSE(flaw_in({kept_outline(m, Leg::a), {}}));
}

struct Volumes {
  double all = 0;
  double in_the_solid = 0;
};

Volumes volumes(const std::vector<Prism>& prisms, const Solid& solid) {
  Volumes v;
  for (const Prism& p : prisms) {
    const auto piece = solid::extrude(p.profile, p.pose, p.length_mm);
    EXPECT_TRUE(piece) << piece.error().reason;
    v.all += p.volume_mm3();
    v.in_the_solid += solid::common_volume_mm3(*piece, Pose(), solid, Pose()).value();
  }
  return v;
}

TEST(Mitre, body_bounds_the_solid_from_both_sides) {
  for (const auto& [start, end] : {std::pair<std::optional<Leg>, std::optional<Leg>>{Leg::a, Leg::a}, {Leg::b, {}}}) {
    const Member m = mitred(section("L 50x50x5"), 300, start, end);
    const Solid s = built(m);
    const double volume = solid::measure(s)->volume_mm3;
    const Body body = body_of(part_of(m));
    EXPECT_FALSE(body.exact);
    const Volumes outer = volumes(body.outer, s);
    const Volumes inner = volumes(body.inner, s);
    EXPECT_NEAR(outer.in_the_solid, volume, 2e-6 * volume) << "the outer prisms hold all of it, once";
    EXPECT_NEAR(inner.in_the_solid, inner.all, 2e-6 * volume) << "all of the inner prisms is in it";
    EXPECT_GT(outer.all, volume);
    EXPECT_LT(inner.all, volume);
    EXPECT_LT(outer.all - inner.all, 0.02 * volume);
  }
}

TEST(Mitre, ends_half_the_gap_behind_the_corners_plane) {
  const Section& s = section("L 40x40x4");
  Member m{s, 500, plan::square_cut(s), plan::square_cut(s), {}};
  Pose pose = Pose::at({0, 0, 0}, axis::x, axis::minus_z);
  ASSERT_TRUE(plan::mitre_ends(m, pose, Leg::a, {2}).ok);
  EXPECT_NEAR(pose.origin().y, std::sqrt(2.0), 1e-6);
  EXPECT_NEAR(m.length_mm, 500 - 2 * std::sqrt(2.0), 2e-6);
  EXPECT_EQ(m.start.mitre, Leg::a);
  EXPECT_EQ(m.end.mitre, Leg::a);
}

TEST(Mitre, that_leaves_no_stub_whole_is_refused_and_changes_nothing) {
  const Section& s = section("L 40x40x4");
  Member m{s, 90, plan::square_cut(s), plan::square_cut(s), {}};
  Pose pose;
  const plan::EndCutResult cut = plan::mitre_ends(m, pose, Leg::a, {});
  EXPECT_FALSE(cut.ok);
  // 90 less twice 40 and twice the half gap, 0.707: less than the 10 of a stub.
  EXPECT_EQ(cut.problem, "only 8.6 mm of its 90 mm would be left whole between its mitres");
  EXPECT_EQ(m.length_mm, 90);
  EXPECT_FALSE(m.start.mitre);
}

TEST(Mitre, of_both_ends_along_either_leg_is_one_part) {
  const auto key = [](std::optional<Leg> start, std::optional<Leg> end) {
    return plan::attitude_of(part_of(mitred(section("L 40x40x4"), 400, start, end))).key;
  };
  EXPECT_EQ(key(Leg::a, Leg::a), key(Leg::b, Leg::b)) << "end for end about the bisector of its legs";
  EXPECT_EQ(key(Leg::a, {}), key({}, Leg::b));
  EXPECT_NE(key(Leg::a, Leg::a), key(Leg::a, Leg::b));
  EXPECT_NE(key(Leg::a, Leg::a), key({}, {}));
  EXPECT_NE(key(Leg::a, {}), key({}, Leg::a)) << "the other hand";
}

}  // namespace
}  // namespace fitup::test

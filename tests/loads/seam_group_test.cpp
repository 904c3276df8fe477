// Groups of seams against the closed forms of textbooks, and laws of elastic lines.
#include "loads/seam_group.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <vector>

#include "loads/weld_limits.h"

namespace fitup::loads {
namespace {

constexpr double a = 3;  // throat
constexpr double b = 80;
constexpr double d = 50;

/// Two lines along x, b long, d apart.
std::vector<WeldLine> two_lines() { return {{{0, 0, 0}, {b, 0, 0}, a}, {{0, d, 0}, {b, d, 0}, a}}; }

constexpr Vec3 middle{b / 2, d / 2, 0};

TEST(SeamGroup, AForceThroughTheMiddleIsSharedEvenly) {
  const auto s = throat_stress(two_lines(), {300, -400, 1200}, middle);
  EXPECT_NEAR(s->mpa, 1300 / (2 * b * a), 1e-9);
  EXPECT_NEAR(s->length_mm, 2 * b, 1e-9);
}

// Shigley, table 9-1, case 2: two lines b long and d apart have the unit polar second moment J_u = b (3 d^2 + b^2) / 6;
// the stress at a corner is T r / (a J_u).
TEST(SeamGroup, TwistedIsATextbooksUnitPolarMoment) {
  const double torque = 500000;
  const auto s = throat_stress(two_lines(), {}, middle, {0, 0, torque});
  EXPECT_NEAR(s->mpa, torque * std::hypot(b / 2, d / 2) / (a * b * (3 * d * d + b * b) / 6), 1e-9);
  EXPECT_NEAR(s->polar_mm4.z, a * b * (3 * d * d + b * b) / 6, 1e-6);
  EXPECT_NEAR(s->polar_mm4.x, a * b * d * d / 2, 1e-6);
  EXPECT_NEAR(s->polar_mm4.y, a * b * b * b / 6, 1e-6);
  EXPECT_NEAR(norm(s->products_mm4), 0, 1e-6);
  EXPECT_NEAR(std::abs(s->reach_mm.x), b / 2, 1e-9);
  EXPECT_NEAR(std::abs(s->reach_mm.y), d / 2, 1e-9);
}

// Shigley, table 9-2: bent about the line between them, I_u = b d^2 / 2, the stress M (d / 2) / (a I_u).
TEST(SeamGroup, BentIsATextbooksUnitSecondMoment) {
  const double moment = 400000;
  const auto s = throat_stress(two_lines(), {}, middle, {moment, 0, 0});
  EXPECT_NEAR(s->mpa, moment * (d / 2) / (a * b * d * d / 2), 1e-9);
}

// Table 9-2: a ring of radius r, I_u = pi r^3, J_u twice that.
TEST(SeamGroup, ARingIsATextbooksToo) {
  Seam ring;
  ring.kind = SeamKind::fillet;
  ring.size_mm = a * std::sqrt(2.0);
  ring.rises = axis::z;
  ring.ring_diameter_mm = 60;
  std::vector<WeldLine> lines;
  add_lines(ring, lines);
  const double r = 30, moment = 300000;
  const double chords = 0.02;  // twenty-four chords are a little shorter than the ring
  EXPECT_NEAR(throat_stress(lines, {}, {}, {moment, 0, 0})->mpa / (moment * r / (a * std::numbers::pi * r * r * r)), 1,
              chords);
  EXPECT_NEAR(throat_stress(lines, {}, {}, {0, 0, moment})->mpa / (moment * r / (a * 2 * std::numbers::pi * r * r * r)),
              1, chords);
}

TEST(SeamGroup, TwiceTheLoadIsTwiceTheStressAndTwiceTheThroatHalfOfIt) {
  const Vec3 force{100, 200, -300}, at{10, -40, 90};
  const double once = throat_stress(two_lines(), force, at)->mpa;
  EXPECT_NEAR(throat_stress(two_lines(), 2 * force, at)->mpa, 2 * once, 1e-9);
  auto thick = two_lines();
  for (WeldLine& w : thick) w.throat_mm *= 2;
  EXPECT_NEAR(throat_stress(thick, force, at)->mpa, once / 2, 1e-9);
}

// EN 1993-1-8, 4.9, figure 4.7, from memory: the force per unit length of an intermittent weld is that of a continuous one
// times (e + l) / l. Where e is l it is twice that.
TEST(SeamGroup, HalfTheWeldIsTwiceTheStress) {
  const Vec3 force{100, 200, -300}, at{10, -40, 90};
  const double once = throat_stress(two_lines(), force, at)->mpa;
  auto half = two_lines();
  for (WeldLine& w : half) w.share = 0.5;
  const auto s = throat_stress(half, force, at);
  EXPECT_NEAR(s->mpa, 2 * once, 1e-9);
  EXPECT_NEAR(s->length_mm, b, 1e-9) << "what counts of the two";
}

// The same clause: what a mm of the continuous seam carries times (40 + 50) / 50, though 150 mm of the 230 are welded.
TEST(SeamGroup, AnIntermittentSeamCarriesByItsElements) {
  Seam seam;
  seam.size_mm = a * std::sqrt(2.0);
  seam.to = {230, 0, 0};
  seam.length_mm = 230;
  std::vector<WeldLine> whole, elements;
  add_lines(seam, whole);
  seam.stitch = stitch_on(230, 50, 40);  // 3 x 50 + 2 x 40
  add_lines(seam, elements);
  EXPECT_NEAR(throat_stress(whole, {0, 0, 690}, {115, 0, 0})->mpa, 690 / (230 * a), 1e-9);
  EXPECT_NEAR(throat_stress(elements, {0, 0, 690}, {115, 0, 0})->mpa, 690 / (230 * a) * (40 + 50) / 50, 1e-9);
}

TEST(SeamGroup, AMomentAboutTheOneLineOfASeamIsNotTaken) {
  const auto s = throat_stress({{{0, 0, 0}, {100, 0, 0}, a}}, {0, 0, 60}, {50, 20, 0});
  EXPECT_NEAR(s->mpa, 60 / (100 * a), 1e-9);
  EXPECT_NEAR(s->not_taken_nmm, 60 * 20, 1e-6);
  EXPECT_FALSE(throat_stress({}, {1, 0, 0}, {}));
}

Strength s235() { return *strength_of("S235JR", 4); }

// EN 1993-1-8: S235 207.85 MPa (computed from the code's formula).
TEST(WeldLimit, IsTheCodesThatTheSpecChooses) {
  LoadRules rules;
  EXPECT_NEAR(weld_limit(rules, s235(), LoadKind::thrown).mpa, 207.85, 0.01);
  EXPECT_NEAR(weld_limit(rules, s235(), LoadKind::standing).mpa, 207.85 / 1.35, 0.01);
  EXPECT_NEAR(weld_limit(rules, s235(), LoadKind::lifted).mpa, 207.85 * 1.25 / 3, 0.01) << "EN 13155, 3 on rupture";
  rules.welds = WeldCode::aws_d1_1;
  // Shigley, table 9-6: E70 21 ksi, E60 18 ksi (to whole ksi).
  EXPECT_NEAR(weld_limit(rules, s235(), LoadKind::thrown).mpa, 144.8, 0.1);
  rules.electrode = electrodes[0];
  EXPECT_NEAR(weld_limit(rules, s235(), LoadKind::standing).mpa, 124.1, 0.1);
  rules.lift = LiftStandard::bth_1_a;
  EXPECT_NEAR(weld_limit(rules, s235(), LoadKind::lifted).mpa, 0.6 * 413.7 / 2.4, 0.01);
}

// EN 1999-1-1 (from memory): 5083 with filler 5356: fw 240, fu,haz 275: the metal decides, 240 / (sqrt 3 x 1.25) =
// 110.9. 6082-T6: fw 210, fu,haz 185 on a face sqrt 2 as wide: 210 < 261.6, 97.0. 6060-T66: 110 x sqrt 2 = 155.6 < 160:
// the zone, 71.9.
TEST(WeldLimit, OfAluminiumIsTheWeakerOfMetalAndZone) {
  LoadRules rules;
  rules.welds = WeldCode::aws_d1_1;  // steel's rule: it does not reach aluminium
  EXPECT_NEAR(weld_limit(rules, *strength_of("5083-H111", 5), LoadKind::thrown).mpa, 110.85, 0.01);
  EXPECT_NEAR(weld_limit(rules, *strength_of("6082-T6", 5), LoadKind::thrown).mpa, 96.99, 0.01);
  EXPECT_NEAR(weld_limit(rules, *strength_of("6060-T66", 3), LoadKind::thrown).mpa, 71.85, 0.01);
  const Strength plate = *strength_of("5083-H111", 5);
  EXPECT_EQ(plate.haz_yield_mpa, plate.yield_mpa) << "H111 is soft already";
}

// EN 1999-1-1, table 3.2b (published, found: dnaop.com, html/60238_7): 6061-T6 up to 20 mm 240, 260, in the zone 115,
// 175; 6060-T66 up to 3 mm 160, 215, in the zone 65, 110.
TEST(Strength, OfAluminiumIsThePublishedTables) {
  const Strength plate = *strength_of("6061-T6", 5), tube = *strength_of("6060-T66", 3);
  EXPECT_THAT((std::vector<double>{plate.yield_mpa, plate.tensile_mpa, plate.haz_yield_mpa, plate.haz_tensile_mpa}),
              testing::ElementsAre(240, 260, 115, 175));
  EXPECT_THAT((std::vector<double>{tube.yield_mpa, tube.tensile_mpa, tube.haz_yield_mpa, tube.haz_tensile_mpa}),
              testing::ElementsAre(160, 215, 65, 110));
}

TEST(LeastSize, IsByThicknessAndCode) {
  LoadRules rules;
  EXPECT_EQ(least_size(rules, 3.9).leg_mm, 0) << "EN 1993-1-8 begins at 4 mm";
  EXPECT_EQ(least_size(rules, 5).leg_mm, 4);
  EXPECT_FALSE(least_size(rules, 5).shall);
  rules.welds = WeldCode::aws_d1_1;
  EXPECT_EQ(least_size(rules, 2).leg_mm, 0) << "AWS D1.1 begins at 1/8 in";
  EXPECT_EQ(least_size(rules, 5).leg_mm, 3);
  EXPECT_EQ(least_size(rules, 10).leg_mm, 5);
  EXPECT_TRUE(least_size(rules, 10).shall);
}

}  // namespace
}  // namespace fitup::loads

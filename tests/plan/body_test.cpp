// Outlines, volumes and prisms of parts against closed forms (plane geometry worked beside each) and against a
// plain reading of a member's numbers at random places.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <random>

#include "fitup/plan.h"
#include "geometry/region.h"
#include "plan/end_cut.h"
#include "plan/rules.h"
#include "plan/stand.h"

namespace fitup::test {
namespace {

constexpr double pi = std::numbers::pi;

Section sharp_angle(double a, double b, double t) {
  Section s;
  s.shape = SectionShape::angle;
  s.designation = "sharp";
  s.leg_a_mm = a;
  s.leg_b_mm = b;
  s.thickness_mm = t;
  return s;
}

Member square_cut_member(const Section& s, double length) {
  return {s, length, plan::square_cut(s), plan::square_cut(s), {}};
}

// What an equal corner of 40x40x4 with a gap of 1 leaves: lying leg 36 back, hanging leg 36 back over 5 mm.
EndCut coped(CornerKind kind) {
  EndCut cut;
  cut.a.steps = {{0, 40, 36}};
  cut.b.steps = {{0, 5, 36}, {5, 40, 0}};
  if (kind != CornerKind::square) cut.b.corners = {{5, kind, 5}};
  return cut;
}

double volume_of(const Member& m) { return volume_mm3(part_of(m)); }

double sum(const std::vector<Prism>& prisms) {
  double v = 0;
  for (const Prism& p : prisms) v += p.volume_mm3();
  return v;
}

TEST(Volume, of_a_sharp_angle_with_square_ends) {
  EXPECT_NEAR(volume_of(square_cut_member(sharp_angle(40, 40, 4), 100)), (40 + 36) * 4 * 100, 1e-9);
  EXPECT_NEAR(volume_of(square_cut_member(sharp_angle(60, 40, 5), 250)), (60 + 35) * 5 * 250, 1e-9);
}

TEST(Volume, of_a_rolled_angle_with_square_ends) {
  // t (2 a - t) + (1 - pi / 4) (r1^2 - 2 r2^2), EN 10056-1 sizes: 307.9 mm2.
  const double area = 4 * (80 - 4) + (1 - pi / 4) * (36 - 2 * 9);
  EXPECT_NEAR(volume_of(square_cut_member(section("L 40x40x4"), 984)), area * 984, 1e-6);
}

TEST(Volume, of_a_coped_sharp_angle) {
  Member m = square_cut_member(sharp_angle(40, 40, 4), 508);
  m.start = coped(CornerKind::square);
  // Lost: leg A and the square over 36, and 1 mm of leg B beside the square.
  const double lost = 36 * (40 * 4 + 1 * 4);
  EXPECT_NEAR(volume_of(m), 304 * 508 - lost, 1e-9);
  m.end = coped(CornerKind::chamfer);
  EXPECT_NEAR(volume_of(m), 304 * 508 - 2 * lost - 5 * 5 / 2.0 * 4, 1e-9);
  m.end = coped(CornerKind::radius);
  EXPECT_NEAR(volume_of(m), 304 * 508 - 2 * lost - (1 - pi / 4) * 25 * 4, 304 * 508 * 1e-8);
}

TEST(Volume, of_a_coped_rolled_angle_takes_the_fillet_and_the_toe_exactly) {
  Member m = square_cut_member(section("L 40x40x4"), 508);
  m.end = coped(CornerKind::chamfer);
  const double area = 4 * (80 - 4) + (1 - pi / 4) * (36 - 2 * 9);
  // Over the 36 mm: leg A with its toe, the square, 1 mm of leg B, and the fillet's first 1 mm beside leg A's face:
  // with w = 6 - v from 5 to 6 the integral of 6 - sqrt(36 - w^2).
  const auto half_disc = [](double w) { return w / 2 * std::sqrt(36 - w * w) + 18 * std::asin(w / 6); };
  const double fillet = 6 - (half_disc(6) - half_disc(5));
  const double over_36 = 36 * (40 * 4 - (1 - pi / 4) * 9 + 4 + fillet);
  // The chamfer: 12.5 x 4 of the plate, and of the fillet the integral of (6 - sqrt(36 - w^2)) w for w from 0 to 5.
  const double chamfer = 12.5 * 4 + 3 * 25 + (std::pow(11, 1.5) - 216) / 3;
  EXPECT_NEAR(volume_of(m), area * 508 - over_36 - chamfer, area * 508 * 1e-9);
}

TEST(Volume, of_flats_and_holes) {
  Member bar = square_cut_member(section("40x4"), 300);
  EXPECT_NEAR(volume_of(bar), 40 * 4 * 300, 1e-9);
  bar.start.a = {{{0, 6, 10}, {6, 40, 0}}, {}};
  bar.holes = {{Leg::a, 50, 20, 6.6, HoleKind::clear, ""}, {Leg::a, 90, 20, 3.3, HoleKind::tapped, "M4"}};
  EXPECT_NEAR(volume_of(bar), 40 * 4 * 300 - 60 * 4 - pi / 4 * (6.6 * 6.6 + 3.3 * 3.3) * 4, 1e-9);
  Part plate;
  plate.form = Flat{{Loop::rectangle({0, 0}, {100, 50}), {Loop::circle({20, 20}, 5)}}, 3, {{{70, 20}, 3.3, "tap M4"}}};
  EXPECT_NEAR(volume_mm3(plate), (5000 - pi * 25 - pi / 4 * 3.3 * 3.3) * 3, 1e-9);
  Part stack;
  stack.form = Solidform{
      {{{Loop::circle({0, 0}, 3), {}}, Pose(), 10}, {{Loop::hexagon({0, 0}, 10), {}}, Pose::at({0, 0, 10}), 5}}};
  // A hexagon 10 across flats: 50 sqrt 3 mm2.
  EXPECT_NEAR(volume_mm3(stack), pi * 9 * 10 + 50 * std::sqrt(3) * 5, 1e-9);
}

// The same corners in the same order, whichever comes first.
void expect_corners(const Loop& loop, const std::vector<Vec2>& corners) {
  ASSERT_EQ(loop.vertices.size(), corners.size());
  const auto first =
      std::find_if(loop.vertices.begin(), loop.vertices.end(), [&](const Vertex& v) { return v.at == corners[0]; });
  ASSERT_NE(first, loop.vertices.end());
  const auto offset = static_cast<std::size_t>(first - loop.vertices.begin());
  for (std::size_t i = 0; i < corners.size(); ++i) {
    EXPECT_EQ(loop.vertices[(offset + i) % corners.size()].at, corners[i]) << i;
  }
}

TEST(KeptOutline, of_a_coped_leg) {
  Member m = square_cut_member(section("L 40x40x4"), 508);
  m.start = coped(CornerKind::chamfer);
  m.end = coped(CornerKind::square);
  // Counter-clockwise, from the far end's heel: up the far end, back along the toe, down the near end.
  expect_corners(kept_outline(m, Leg::a), {{472, 0}, {472, 40}, {36, 40}, {36, 0}});
  const Loop b = kept_outline(m, Leg::b);
  expect_corners(b, {{472, 0}, {472, 5}, {508, 5}, {508, 40}, {0, 40}, {0, 10}, {5, 5}, {36, 5}, {36, 0}});
  EXPECT_NEAR(b.area_mm2(), 40 * 508 - 2 * 36 * 5 - 12.5, 1e-9);
}

TEST(KeptOutline, of_a_rounded_corner_keeps_the_quarter_circle_at_either_end) {
  Member m = square_cut_member(section("L 40x40x4"), 508);
  m.start = coped(CornerKind::radius);
  m.end = coped(CornerKind::radius);
  const Loop b = kept_outline(m, Leg::b);
  EXPECT_NEAR(b.area_mm2(), 40 * 508 - 2 * (36 * 5 + (1 - pi / 4) * 25), 1e-9);
  int arcs = 0;
  for (const Edge& e : b.edges()) {
    if (e.straight()) continue;
    ++arcs;
    EXPECT_NEAR(e.arc().radius, 5, 1e-9);
    EXPECT_NEAR(e.arc().centre.y, 10, 1e-9);
    EXPECT_NEAR(std::abs(e.arc().centre.x - 254), 254 - 5, 1e-9);
  }
  EXPECT_EQ(arcs, 2);
  EXPECT_FALSE(flaw_in({b, {}}));
}

TEST(Body, of_a_square_cut_member_is_its_profile_once) {
  const Member m = square_cut_member(section("L 50x50x5"), 300);
  const Body body = body_of(part_of(m));
  EXPECT_TRUE(body.exact);
  ASSERT_EQ(body.outer.size(), 1u);
  EXPECT_EQ(body.outer.front().profile, profile_of(m.section));
  EXPECT_EQ(body.outer.front().length_mm, 300);
}

TEST(Body, holes_of_a_member_are_bores_square_through_their_leg) {
  Member m = square_cut_member(section("L 40x40x4"), 300);
  m.holes = {{Leg::a, 50, 22, 6.6, HoleKind::clear, ""}, {Leg::b, 80, 25, 5, HoleKind::clear, ""}};
  const Body body = body_of(part_of(m));
  ASSERT_EQ(body.bores.size(), 2u);
  for (const double d : {0.0, 4.0}) {
    EXPECT_EQ(body.bores[0].pose.point({0, 0, d}), (Vec3{22, d, 50}));
    EXPECT_EQ(body.bores[1].pose.point({0, 0, d}), (Vec3{d, 25, 80}));
  }
  EXPECT_EQ(body.bores[0].length_mm, 4);
}

// A slot of 9 by 29 through a leg of 5: two half circles and a rectangle.
TEST(Body, of_a_slotted_member_is_what_the_slot_leaves_exactly) {
  Member m = square_cut_member(section("L 50x50x5"), 60);
  m.holes = {{Leg::a, 30, 31, 9, HoleKind::clear, "bolt M8", false, 20}};
  const double slot = (pi / 4 * 9 * 9 + 20 * 9) * 5;
  const double whole = volume_of(square_cut_member(section("L 50x50x5"), 60));
  EXPECT_NEAR(volume_of(m), whole - slot, 1e-6);
  for (const Leg leg : {Leg::a, Leg::b}) {
    m.holes[0].leg = leg;
    const Body body = body_of(part_of(m));
    EXPECT_TRUE(body.exact);
    EXPECT_TRUE(body.bores.empty());
    EXPECT_NEAR(sum(body.outer), whole - slot, 1e-6);
    EXPECT_NEAR(sum(body.inner), whole - slot, 1e-6);
  }
  EXPECT_NEAR(outline_of(m.holes[0]).area_mm2() * 5, slot, 1e-6);
}

TEST(Body, of_a_chamfered_member_is_bounded_from_both_sides) {
  for (const CornerKind kind : {CornerKind::chamfer, CornerKind::radius}) {
    Member m = square_cut_member(section("L 40x40x4"), 508);
    m.start = coped(kind);
    const Body body = body_of(part_of(m));
    EXPECT_FALSE(body.exact);
    EXPECT_LT(sum(body.inner), volume_of(m));
    EXPECT_GT(sum(body.outer), volume_of(m));
    // Less than the whole square of the corner, 5 mm by 5 mm through plate and fillet, which is what bounding it by a
    // single step would leave open.
    EXPECT_LT(sum(body.outer) - sum(body.inner), 0.5 * 5 * 5 * (4 + 6));
  }
}

// A plain reading of the numbers: is the place kept?
bool leg_keeps(const Member& m, Leg leg, double across, double along) {
  const double from = set_back(leg == Leg::a ? m.start.a : m.start.b, across);
  const double to = m.length_mm - set_back(leg == Leg::a ? m.end.a : m.end.b, across);
  return along > from && along < to;
}

bool keeps(const Member& m, Vec3 p) {
  const Section& s = m.section;
  const double t = s.thickness_mm;
  if (!geometry::Region(profile_of(s)).contains({p.x, p.y})) return false;
  if (s.shape == SectionShape::flat) return leg_keeps(m, Leg::a, p.x, p.z);
  const bool a = leg_keeps(m, Leg::a, p.x, p.z);
  const bool b = leg_keeps(m, Leg::b, p.y, p.z);
  if (p.x < t && p.y < t) return a && b;  // the square
  if (p.y < t) return a;
  if (p.x < t) return b;
  return a || b;  // the root
}

LegCut random_cut(double width, std::mt19937& random) {
  std::uniform_real_distribution<double> depth(0, 60);
  std::uniform_real_distribution<double> place(0.5, width - 0.5);
  std::uniform_int_distribution<int> count(0, 4);
  std::vector<double> edges{0, width};
  for (int i = count(random); i > 0; --i) edges.push_back(place(random));
  std::sort(edges.begin(), edges.end());
  LegCut cut;
  for (std::size_t i = 0; i + 1 < edges.size(); ++i) cut.steps.push_back({edges[i], edges[i + 1], depth(random)});
  return cut;
}

int prisms_holding(const std::vector<Prism>& prisms, const std::vector<geometry::Region>& regions, Vec3 p) {
  int count = 0;
  for (std::size_t i = 0; i < prisms.size(); ++i) {
    const Vec3 q = prisms[i].pose.local(p);
    if (q.z > 0 && q.z < prisms[i].length_mm && regions[i].contains({q.x, q.y})) ++count;
  }
  return count;
}

// Any steps whatever, sawable or not: the prisms are what the numbers say, once each.
TEST(Body, prisms_are_the_kept_places_without_overlap_and_their_volume_is_exact) {
  const unsigned seed = 20261;
  SCOPED_TRACE(seed);
  std::mt19937 random(seed);
  const std::vector<std::string> sizes{"L 20x20x3", "L 40x40x4", "L 50x50x9", "L 45x45x3", "40x4", "L 2x2x3/16 in"};
  for (int round = 0; round < 120; ++round) {
    const Section& s = section(sizes[round % sizes.size()]);
    const bool angle = s.shape == SectionShape::angle;
    Member m = square_cut_member(s, 150);
    for (EndCut* end : {&m.start, &m.end}) {
      end->a = random_cut(s.leg_a_mm, random);
      if (angle) end->b = random_cut(s.leg_b_mm, random);
    }
    const Body body = body_of(part_of(m));
    EXPECT_TRUE(body.exact);
    EXPECT_EQ(body.outer.size(), body.inner.size());
    EXPECT_NEAR(sum(body.outer), volume_of(m), 1e-9 * volume_of(m));
    std::vector<geometry::Region> regions;
    for (const Prism& p : body.outer) {
      const auto flaw = flaw_in(p.profile);
      EXPECT_FALSE(flaw) << *flaw;
      regions.emplace_back(p.profile);
    }
    std::uniform_real_distribution<double> x(0, s.leg_a_mm);
    std::uniform_real_distribution<double> y(0, angle ? s.leg_b_mm : s.thickness_mm);
    std::uniform_real_distribution<double> z(0, 150);
    for (int i = 0; i < 300; ++i) {
      Vec3 p{x(random), y(random), z(random)};
      // Most of the section's box is empty: bring half of the places into the legs, and some to the root.
      if (angle && i % 2 == 0) (i % 4 == 0 ? p.x : p.y) *= (s.thickness_mm + s.root_radius_mm) / s.leg_a_mm;
      EXPECT_EQ(prisms_holding(body.outer, regions, p), keeps(m, p) ? 1 : 0)
          << s.designation << " (" << p.x << ", " << p.y << ", " << p.z << ") " << to_words(m.start.a) << " | "
          << to_words(m.start.b) << " | " << to_words(m.end.a) << " | " << to_words(m.end.b);
    }
  }
}

}  // namespace
}  // namespace fitup::test

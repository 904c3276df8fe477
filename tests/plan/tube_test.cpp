// Members of square and rectangular tube: volume in closed form and by the kernel, prisms from both sides, walls and
// turns of one part, at generated sections, lengths, mitres and holes.
#include "plan/tube.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "fitup/tolerances.h"
#include "geometry/draws.h"
#include "plan/end_cut.h"
#include "plan/same_part.h"
#include "plan/sound.h"
#include "plan/stand.h"

namespace fitup::test {
namespace {

using Mitre = std::optional<Leg>;

Member tube(const Section& s, double length, Mitre start = {}, Mitre end = {}) {
  Member m{s, length, plan::square_cut(s), plan::square_cut(s), {}};
  m.start.mitre = start;
  m.end.mitre = end;
  return m;
}

Section own_tube(double width, double height, double t, double corner) {
  Section s;
  s.shape = SectionShape::tube;
  s.designation = "own";
  s.leg_a_mm = width;
  s.leg_b_mm = height;
  s.thickness_mm = t;
  s.corner_radius_mm = corner;
  return s;
}

// Two rectangles with rounded corners; a mitre takes half the side that it runs along, for the section is its own
// image.
double by_hand_mm3(const Member& m) {
  const Section& s = m.section;
  const double t = s.thickness_mm;
  const auto area = [](double w, double h, double r) { return w * h - (4 - M_PI) * r * r; };
  const double walls = area(s.leg_a_mm, s.leg_b_mm, s.corner_radius_mm) -
                       area(s.leg_a_mm - 2 * t, s.leg_b_mm - 2 * t, std::max(0.0, s.corner_radius_mm - t));
  double length = m.length_mm;
  for (const Mitre& end : {m.start.mitre, m.end.mitre}) {
    if (end) length -= (*end == Leg::a ? s.leg_a_mm : s.leg_b_mm) / 2;
  }
  double bored = 0;
  for (const MemberHole& h : m.holes) bored += h.diameter_mm * h.diameter_mm * M_PI / 4 * t;
  return walls * length - bored;
}

TEST(Tube, weighs_by_walls_and_corner_radii) {
  // SHS 40x40x3 with 6 mm outside and 3 mm inside: 420.82 mm2, published as 4.21 cm2.
  const Member plain = tube(section("SHS 40x40x3"), 1000);
  EXPECT_NEAR(volume_mm3(part_of(plain)), 420823, 1);
  EXPECT_NEAR(volume_mm3(part_of(plain)), by_hand_mm3(plain), 1e-6);
  const Member mitred = tube(section("SHS 40x40x3"), 1000, Leg::a, Leg::b);
  EXPECT_NEAR(volume_mm3(part_of(mitred)), by_hand_mm3(mitred), 1e-6);
}

class Maker : Draws {
 public:
  using Draws::Draws;

  Member member() {
    const Section s = any_section();
    Member m = tube(s, between(250, 600), mitre(), mitre());
    for (int i = whole(0, 4); i > 0; --i) bore(m);
    return m;
  }

 private:
  Mitre mitre() {
    const int kind = whole(0, 2);
    return kind == 0 ? Mitre{} : kind == 1 ? Mitre{Leg::a} : Mitre{Leg::b};
  }

  Section any_section() {
    if (whole(0, 2) == 0) {
      const double t = between(1, 8);
      const double corner = whole(0, 3) == 0 ? 0 : between(t, 3 * t);
      const double least = 2 * std::max(t, corner) + 12;
      return own_tube(between(least, 120), between(least, 120), t, corner);
    }
    std::vector<Section> all;
    for (const Section& s : tables::sections()) {
      if (s.shape == SectionShape::tube) all.push_back(s);
    }
    return all[static_cast<std::size_t>(whole(0, static_cast<int>(all.size()) - 1))];
  }

  // One hole a wall, so that none meets another.
  void bore(Member& m) {
    const Section& s = m.section;
    const bool a = whole(0, 1) == 0;
    const bool far = whole(0, 1) == 0;
    const double round = std::max(s.corner_radius_mm, s.thickness_mm);
    const double width = a ? s.leg_a_mm : s.leg_b_mm;
    const double flat = width - 2 * round;
    const double d = between(0.2, 0.9) * flat;
    const Leg leg = a ? Leg::a : Leg::b;
    for (const MemberHole& h : m.holes) {
      if (h.leg == leg && h.far_wall == far) return;
    }
    const double longest = std::max(s.leg_a_mm, s.leg_b_mm);
    if (m.length_mm < 2 * longest + 2 * d) return;
    m.holes.push_back({leg, between(longest + d, m.length_mm - longest - d),
                       between(round + d / 2, width - round - d / 2), d, HoleKind::clear, "hole", far});
  }
};

double volume_of(const Solid& solid) { return solid::measure(solid)->volume_mm3; }

double share_in_mm3(const std::vector<Prism>& prisms, const Solid& solid) {
  double sum = 0;
  for (const Prism& p : prisms) {
    const auto piece = solid::extrude(p.profile, p.pose, p.length_mm);
    EXPECT_TRUE(piece) << piece.error().reason;
    sum += solid::common_volume_mm3(*piece, Pose(), solid, Pose()).value();
  }
  return sum;
}

double sum_mm3(const std::vector<Prism>& prisms) {
  double sum = 0;
  for (const Prism& p : prisms) sum += p.volume_mm3();
  return sum;
}

class RandomTube : public testing::TestWithParam<unsigned> {};
class RandomTubeBody : public testing::TestWithParam<unsigned> {};

TEST_P(RandomTube, is_the_solid_that_its_numbers_say) {
  const Member m = Maker(GetParam()).member();
  const double volume = by_hand_mm3(m);
  EXPECT_NEAR(volume_mm3(part_of(m)), volume, 1e-9 * volume);
  EXPECT_NEAR(volume_of(built(m)), volume, tolerance::volume_relative * volume);
}

TEST_P(RandomTubeBody, lies_between_its_prisms) {
  Member m = Maker(GetParam()).member();
  m.holes.clear();  // bores are beside the prisms
  const Solid solid = built(m);
  const double volume = by_hand_mm3(m);
  const Body body = body_of(part_of(m));
  EXPECT_EQ(body.exact, !m.start.mitre && !m.end.mitre);
  EXPECT_NEAR(share_in_mm3(body.outer, solid), volume, 3e-6 * volume) << "the outer prisms hold all of it, once";
  EXPECT_NEAR(share_in_mm3(body.inner, solid), sum_mm3(body.inner), 3e-6 * volume) << "all of the inner ones is in it";
  EXPECT_LE(sum_mm3(body.outer) - sum_mm3(body.inner), 0.05 * volume);
  if (body.exact) {
    EXPECT_NEAR(sum_mm3(body.outer), volume, 1e-9 * volume);
  }
}

// Turned about its own axes and numbered anew by hand: end for end about x, half round, and of a square a quarter
// round.
Member about_x(const Member& m) {
  Member out = m;
  std::swap(out.start, out.end);
  for (MemberHole& h : out.holes) {
    h.along_mm = m.length_mm - h.along_mm;
    if (h.leg == Leg::a) {
      h.far_wall = !h.far_wall;
    } else {
      h.across_mm = m.section.leg_b_mm - h.across_mm;
    }
  }
  return out;
}
Member half_round(const Member& m) {
  Member out = m;
  for (MemberHole& h : out.holes) {
    h.far_wall = !h.far_wall;
    h.across_mm = (h.leg == Leg::a ? m.section.leg_a_mm : m.section.leg_b_mm) - h.across_mm;
  }
  return out;
}
// x to y, y to -x.
Member quarter_round(const Member& m) {
  Member out = m;
  const double side = m.section.leg_a_mm;
  for (MemberHole& h : out.holes) {
    const bool a = h.leg == Leg::a;
    h.leg = a ? Leg::b : Leg::a;
    if (a) {
      h.far_wall = !h.far_wall;
    } else {
      h.across_mm = side - h.across_mm;
    }
  }
  return out;
}
// Mirrored across the plane of x and z.
Member other_hand(const Member& m) {
  Member out = m;
  for (MemberHole& h : out.holes) {
    if (h.leg == Leg::a) {
      h.far_wall = !h.far_wall;
    } else {
      h.across_mm = m.section.leg_b_mm - h.across_mm;
    }
  }
  return out;
}

void expect_one_part(const Member& a, const Member& b) {
  const plan::Attitude of_a = plan::attitude_of(part_of(a));
  const plan::Attitude of_b = plan::attitude_of(part_of(b));
  EXPECT_EQ(of_a.key, of_b.key);
  const Solid first = built(a);
  const Solid second = built(b);
  const double volume = volume_of(first);
  EXPECT_NEAR(solid::common_volume_mm3(first, of_a.to_common, second, of_b.to_common).value(), volume, 2e-6 * volume)
      << "laid over each other they are one";
}

Member bored(const Section& s) {
  Member m = tube(s, 300);
  m.holes = {{Leg::a, 40, 14, 5, HoleKind::clear, "x", false},
             {Leg::b, 90, 17, 6, HoleKind::clear, "x", true},
             {Leg::a, 200, 20, 7, HoleKind::clear, "x", true}};
  return m;
}

TEST(Tube, that_is_turned_is_the_same_part) {
  for (const char* size : {"SHS 50x50x4", "RHS 60x40x3"}) {
    SCOPED_TRACE(size);
    const Member m = bored(section(size));
    expect_one_part(m, about_x(m));
    expect_one_part(m, half_round(m));
    expect_one_part(m, half_round(about_x(m)));
    EXPECT_NE(plan::attitude_of(part_of(m)).key, plan::attitude_of(part_of(other_hand(m))).key);
  }
  const Member square = bored(section("SHS 50x50x4"));
  expect_one_part(square, quarter_round(square));
  expect_one_part(square, about_x(quarter_round(half_round(square))));
}

TEST(Tube, that_is_mitred_is_turned_end_for_end_only) {
  Member m = bored(section("SHS 50x50x4"));
  m.start.mitre = m.end.mitre = Leg::a;
  for (MemberHole& h : m.holes) h.along_mm += 40;
  m.length_mm = 380;
  expect_one_part(m, about_x(m));
  EXPECT_NE(plan::attitude_of(part_of(m)).key, plan::attitude_of(part_of(half_round(m))).key);
  EXPECT_NE(plan::attitude_of(part_of(m)).key, plan::attitude_of(part_of(other_hand(m))).key);
}

TEST(Tube, walls_of_a_mitre_begin_where_they_are_whole) {
  const Member m = tube(section("RHS 60x40x4"), 300, Leg::a, Leg::a);
  // Along the mitre both walls are slanted, by 60 at each end; of the others the heel's begins behind its bevel.
  EXPECT_NEAR(plan::wall_outline(m, Leg::a, false).area_mm2(), 60 * 240, 1e-9);
  EXPECT_NEAR(plan::wall_outline(m, Leg::a, true).area_mm2(), 60 * 240, 1e-9);
  EXPECT_NEAR(plan::wall_outline(m, Leg::b, false).area_mm2(), 40 * 292, 1e-9);
  EXPECT_NEAR(plan::wall_outline(m, Leg::b, true).area_mm2(), 40 * 180, 1e-9);
}

TEST(Tube, holds_air_in_until_either_end_has_a_vent) {
  Member m = tube(section("SHS 40x40x3"), 500);
  EXPECT_TRUE(is_unvented_tube(part_of(m)));
  m.holes.push_back({Leg::a, 20, 20, 10, HoleKind::clear, std::string(vent_purpose)});
  m.holes.push_back({Leg::a, 480, 20, 3.3, HoleKind::tapped, "tap M4"});
  EXPECT_TRUE(is_unvented_tube(part_of(m))) << "a thread lets nothing out";
  m.holes.push_back({Leg::b, 480, 20, 10, HoleKind::clear, std::string(vent_purpose), true});
  EXPECT_FALSE(is_unvented_tube(part_of(m)));
}

INSTANTIATE_TEST_SUITE_P(Seeds, RandomTube, testing::Range(1U, 25U));
INSTANTIATE_TEST_SUITE_P(Seeds, RandomTubeBody, testing::Range(1U, 5U));

}  // namespace
}  // namespace fitup::test

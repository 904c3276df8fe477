// Members: what is in the solid is what the rule of the end cuts keeps, point by point, and the volume is that
// of the numbers.
#include <gtest/gtest.h>
#include <BRepClass3d_SolidClassifier.hxx>
#include <TopExp_Explorer.hxx>

#include <cmath>
#include <numbers>
#include <random>

#include "fitup/model.h"
#include "fitup/tolerances.h"
#include "judges/part21.h"
#include "judges/part21_volume.h"
#include "solid/shapes.h"

namespace fitup {
namespace {

constexpr double pi = std::numbers::pi;

struct Case {
  std::string name;
  Member member;
};
std::ostream& operator<<(std::ostream& out, const Case& c) { return out << c.name; }

Section angle(double a, double b, double t, double root, double toe) {
  return {SectionShape::angle, "angle", a, b, t, root, toe, 0, 0, "made up"};
}
Section bar(double width, double t) { return {SectionShape::flat, "bar", width, 0, t, 0, 0, 0, 0, "made up"}; }

LegCut square(double width) { return {{{0, width, 0}}, {}}; }
LegCut two(double width, double at, double back_below, double back_above, std::vector<CutCorner> corners = {}) {
  return {{{0, at, back_below}, {at, width, back_above}}, std::move(corners)};
}
Member member_of(Section section, double length, EndCut start, EndCut end, std::vector<MemberHole> holes = {}) {
  return {std::move(section), length, std::move(start), std::move(end), std::move(holes)};
}
Part part_of(Member member) {
  Part part;
  part.mark = "ANG01";
  part.name = "test member";
  part.form = std::move(member);
  return part;
}
Result<Model> model_of(const Part& part) {
  Plan plan;
  plan.parts.push_back(part);
  return build_model(plan, 1);
}

std::vector<Case> cases() {
  const Section l40 = angle(40, 40, 4, 6, 3);
  const Section unequal = angle(60, 40, 5, 6, 3);
  const Section sharp = angle(50, 30, 3, 0, 0);
  const EndCut plain40{square(40), square(40)};
  const CutCorner chamfer{10, CornerKind::chamfer, 3};
  const CutCorner radius{30, CornerKind::radius, 5};
  std::vector<Case> all;
  all.push_back({"square_ends", member_of(l40, 200, plain40, plain40)});
  all.push_back(
      {"square_but_set_back", member_of(l40, 200, {square(40), square(40)}, {{{{0, 40, 7}}, {}}, {{{0, 40, 7}}, {}}})});
  all.push_back({"leg_a_gone_at_start", member_of(l40, 200, {{{{0, 40, 41}}, {}}, square(40)}, plain40)});
  all.push_back({"leg_b_gone_at_end", member_of(l40, 200, plain40, {square(40), {{{0, 40, 36}}, {}}})});
  all.push_back({"both_gone_unequally", member_of(l40, 200, {{{{0, 40, 5}}, {}}, {{{0, 40, 41}}, {}}}, plain40)});
  all.push_back({"stepped_with_chamfer", member_of(l40, 200, {two(40, 10, 0, 12, {chamfer}), square(40)}, plain40)});
  all.push_back({"toe_kept_with_radius",
                 member_of(l40, 200, plain40, {two(40, 30, 9, 0, {radius}), two(40, 30, 9, 0, {radius})})});
  all.push_back({"heel_gone_in_both_legs", member_of(l40, 200, {two(40, 8, 20, 0), two(40, 7, 25, 0)}, plain40)});
  all.push_back({"root_cut_in_part_by_both", member_of(l40, 200, {two(40, 6, 0, 15), two(40, 8, 0, 10)}, plain40)});
  all.push_back({"unequal_legs_both_ends",
                 member_of(unequal, 150, {two(60, 20, 30, 0), square(40)}, {square(60), two(40, 9, 0, 14)})});
  const LegCut block{{{0, 40, 36}}, {}};
  const LegCut hooked{{{0, 5, 36}, {5, 40, 0}}, {{5, CornerKind::chamfer, 5}}};
  all.push_back({"block_in_a_hook_in_b", member_of(l40, 300, {block, hooked}, {block, hooked})});
  all.push_back({"hook_in_a_block_in_b", member_of(l40, 300, {hooked, block}, {hooked, block})});
  all.push_back({"hook_deeper_than_the_block", member_of(l40, 300, {hooked, {{{0, 40, 20}}, {}}}, plain40)});
  all.push_back({"radius_through_the_toe",
                 member_of(l40, 200, {two(40, 38, 0, 12, {{38, CornerKind::radius, 7}}), square(40)}, plain40)});
  all.push_back({"radius_through_the_root", member_of(l40, 200,
                                                      {two(40, 9, 0, 12, {{9, CornerKind::radius, 4}}),
                                                       two(40, 9, 0, 12, {{9, CornerKind::radius, 4}})},
                                                      plain40)});
  all.push_back({"chamfer_through_the_root", member_of(l40, 200,
                                                       {two(40, 9, 0, 12, {{9, CornerKind::chamfer, 4}}),
                                                        two(40, 8, 0, 9, {{8, CornerKind::chamfer, 3}})},
                                                       plain40)});
  all.push_back({"no_radii", member_of(sharp, 120, {two(50, 25, 10, 0), square(30)}, {square(50), two(30, 10, 0, 8)})});
  all.push_back({"flat_bar_stepped", member_of(bar(40, 4), 300, {two(40, 12, 0, 5, {{12, CornerKind::chamfer, 2}}), {}},
                                               {square(40), {}})});
  all.push_back({"holes_in_both_legs",
                 member_of(l40, 200, plain40, plain40,
                           {{Leg::a, 50, 22, 7, HoleKind::clear, ""}, {Leg::b, 80, 25, 3.3, HoleKind::tapped, ""}})});
  all.push_back({"slots_in_both_legs", member_of(l40, 200, plain40, plain40,
                                                 {{Leg::a, 60, 24, 9, HoleKind::clear, "", false, 20},
                                                  {Leg::b, 100, 25, 6, HoleKind::clear, "", false, 11}})});
  return all;
}

/// Whether the loop of straight and curved edges holds the point: crossings of a ray along +x.
bool holds(const Loop& loop, Vec2 p) {
  int crossings = 0;
  for (const Edge& edge : loop.edges()) {
    std::vector<Vec2> chain{edge.from};
    if (!edge.straight()) {
      const Arc arc = edge.arc();
      for (int i = 1; i < 400; ++i) {
        const double at = arc.start + arc.sweep * i / 400;
        chain.push_back(arc.centre + arc.radius * Vec2{std::cos(at), std::sin(at)});
      }
    }
    chain.push_back(edge.to);
    for (std::size_t i = 0; i + 1 < chain.size(); ++i) {
      const Vec2 a = chain[i];
      const Vec2 b = chain[i + 1];
      if ((a.y > p.y) == (b.y > p.y)) continue;
      if (a.x + (p.y - a.y) / (b.y - a.y) * (b.x - a.x) > p.x) ++crossings;
    }
  }
  return crossings % 2 == 1;
}

bool in_a_hole(const Member& member, Vec3 p) {
  for (const MemberHole& hole : member.holes) {
    const bool a = hole.leg == Leg::a;
    if ((a ? p.y : p.x) > member.section.thickness_mm) continue;
    const double along = std::max(0.0, std::abs(p.z - hole.along_mm) - hole.slot_mm / 2);
    if (std::hypot(along, (a ? p.x : p.y) - hole.across_mm) < hole.diameter_mm / 2) return true;
  }
  return false;
}

/// The rule: a slab of each leg, the corner where both stay, the fillet where at least one stays.
bool kept(const Member& member, Vec3 p) {
  if (!holds(profile_of(member.section).outer, {p.x, p.y}) || in_a_hole(member, p)) return false;
  const double t = member.section.thickness_mm;
  const bool a = holds(kept_outline(member, Leg::a), {p.z, p.x});
  if (member.section.shape == SectionShape::flat) return a;
  const bool b = holds(kept_outline(member, Leg::b), {p.z, p.y});
  const bool in_slab_a = p.y <= t;
  const bool in_slab_b = p.x <= t;
  if (in_slab_a && in_slab_b) return a && b;
  if (in_slab_a) return a;
  if (in_slab_b) return b;
  return a || b;
}

class MemberRule : public testing::TestWithParam<Case> {};

TEST_P(MemberRule, is_in_the_solid_point_by_point) {
  const Member& member = GetParam().member;
  const auto model = model_of(part_of(member));
  ASSERT_TRUE(model) << model.error().operation << ": " << model.error().reason;
  BRepClass3d_SolidClassifier classifier(model->parts[0].solid.shape().solid);
  const unsigned seed = 4711;
  std::mt19937 random(seed);
  const double t = member.section.thickness_mm;
  const double depth = t + member.section.root_radius_mm + 2;
  std::uniform_real_distribution<double> unit(0, 1);
  int inside = 0;
  for (int i = 0; i < 1200; ++i) {
    // Mostly near the ends and near the root, where the cuts are.
    const bool along_a = unit(random) < 0.5;
    const double across = unit(random) * std::max(member.section.leg_a_mm, member.section.leg_b_mm);
    const double thick = unit(random) * depth;
    const double from_end = unit(random) * 50;
    const double z = unit(random) < 0.5 ? from_end : member.length_mm - from_end;
    const Vec3 p = along_a ? Vec3{across, thick, z} : Vec3{thick, across, z};
    classifier.Perform(solid::point(p), 1e-7);
    if (classifier.State() == TopAbs_ON) continue;
    const bool is_in = classifier.State() == TopAbs_IN;
    inside += is_in ? 1 : 0;
    ASSERT_EQ(is_in, kept(member, p)) << p.x << ' ' << p.y << ' ' << p.z << ", seed " << seed << ", point " << i;
  }
  EXPECT_GT(inside, 100);
}

TEST_P(MemberRule, has_the_volume_of_its_numbers) {
  const Part part = part_of(GetParam().member);
  const auto model = model_of(part);
  ASSERT_TRUE(model) << model.error().reason;
  EXPECT_NEAR(model->parts[0].volume_mm3, volume_mm3(part), tolerance::volume_relative * volume_mm3(part));
}

// Lines, circles, ellipses where a chamfer meets a rounding, splines where two roundings meet.
TEST_P(MemberRule, has_that_volume_in_its_file_by_the_divergence_theorem) {
  const Part part = part_of(GetParam().member);
  const auto model = model_of(part);
  ASSERT_TRUE(model) << model.error().reason;
  const auto text = write_part_step(part, model->parts[0], {"member", "", "1980-01-01T00:00:00"});
  ASSERT_TRUE(text) << text.error().reason;
  const auto file = judges::read_part21(*text);
  ASSERT_TRUE(file) << file.error().reason;
  const auto solids = file->all("MANIFOLD_SOLID_BREP");
  ASSERT_EQ(solids.size(), 1U);
  const auto volume = judges::volume_of_solid(*file, solids[0]);
  ASSERT_TRUE(volume) << volume.error().reason;
  EXPECT_NEAR(*volume, volume_mm3(part), tolerance::volume_relative * volume_mm3(part));
}

INSTANTIATE_TEST_SUITE_P(EndCuts, MemberRule, testing::ValuesIn(cases()),
                         [](const auto& one) { return one.param.name; });

// By hand, from plane areas: 120 long, legs 50 and 30, 3 thick; leg A loses 25 x 10 at the start, leg B the 20
// beyond 10 over 8 at the end.
TEST(Member, without_radii_has_the_volume_of_its_blocks) {
  Member member;
  for (const Case& c : cases()) {
    if (c.name == "no_radii") member = c.member;
  }
  const double whole = 120 * (50 * 3 + 27 * 3);
  // The heel band of leg A holds the corner square; leg B beyond it stays.
  const double lost = 25 * 10 * 3 + 20 * 8 * 3;
  const auto model = model_of(part_of(member));
  ASSERT_TRUE(model) << model.error().reason;
  EXPECT_NEAR(model->parts[0].volume_mm3, whole - lost, 1e-6 * whole);
}

// A boolean leaves the seams of its tools behind; joined faces show a bar with square ends as what it is.
TEST(Member, with_a_leg_cut_back_shows_no_seams) {
  const Section sharp = angle(40, 40, 4, 0, 0);
  const EndCut plain{square(40), square(40)};
  const auto model = model_of(part_of(member_of(sharp, 100, {{{{0, 40, 20}}, {}}, square(40)}, plain)));
  ASSERT_TRUE(model) << model.error().reason;
  int faces = 0;
  for (TopExp_Explorer it(model->parts[0].solid.shape().solid, TopAbs_FACE); it.More(); it.Next()) ++faces;
  // Two outer faces, two inner ones, two toes, the far end, each leg's near end, and leg B's own edge where the
  // heel is gone.
  EXPECT_EQ(faces, 2 + 2 + 2 + 1 + 2 + 1);
}

TEST(Member, whose_hole_runs_out_of_its_leg_is_refused_by_name) {
  const EndCut plain{square(40), square(40)};
  const auto model = model_of(
      part_of(member_of(angle(40, 40, 4, 6, 3), 100, plain, plain, {{Leg::a, 50, 38, 9, HoleKind::clear, ""}})));
  ASSERT_FALSE(model);
  EXPECT_NE(model.error().operation.find("ANG01"), std::string::npos) << model.error().operation;
  EXPECT_NE(model.error().reason.find("mm3"), std::string::npos) << model.error().reason;
}

TEST(Member, of_a_flat_bar_has_real_circular_holes) {
  const EndCut plain{square(40), {}};
  const auto model =
      model_of(part_of(member_of(bar(40, 4), 100, plain, plain, {{Leg::a, 50, 20, 7, HoleKind::clear, ""}})));
  ASSERT_TRUE(model) << model.error().reason;
  EXPECT_NEAR(model->parts[0].volume_mm3, (4000 - pi * 49 / 4) * 4, 1e-2);
  EXPECT_NEAR(model->parts[0].bounds.high.x, 40, 1e-9);
  EXPECT_NEAR(model->parts[0].bounds.high.y, 4, 1e-9);
  EXPECT_NEAR(model->parts[0].bounds.high.z, 100, 1e-9);
}

}  // namespace
}  // namespace fitup

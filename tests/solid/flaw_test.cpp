// What makes a profile impossible, held against the kernel: its checker of faces (BRepCheck) and its distance between
// wires, on generated profiles whose holes touch, cross or just miss an edge or each other.
#include <gtest/gtest.h>
#include <BRepBuilderAPI_MakeFace.hxx>
#include <BRepCheck_Analyzer.hxx>
#include <BRepExtrema_DistShapeShape.hxx>
#include <TopExp_Explorer.hxx>
#include <TopoDS.hxx>
#include <TopoDS_Face.hxx>

#include <fmt/format.h>
#include <cmath>

#include "fitup/tolerances.h"
#include "geometry/draws.h"
#include "solid/face.h"

namespace fitup {
namespace {

class Maker : test::Draws {
 public:
  using Draws::Draws;

  Profile with_holes() {
    Profile p{outline(), {}};
    const int holes = whole(1, 2);
    for (int i = 0; i < holes; ++i) {
      const Loop& beside = i > 0 && whole(0, 1) == 0 ? p.holes.back() : p.outer;
      p.holes.push_back(hole_beside(beside, &beside == &p.outer));
    }
    return p;
  }

  // Corners round a centre at uneven distances and angles, some edges bent far enough to reach over others.
  Profile star() {
    Loop loop;
    const int n = whole(4, 9);
    for (int i = 0; i < n; ++i) {
      const double angle = 2 * M_PI * (i + between(-0.7, 0.7)) / n;
      const double bulge = whole(0, 1) == 0 ? 0 : between(-0.9, 0.9);
      loop.vertices.push_back({between(15, 40) * Vec2{std::cos(angle), std::sin(angle)}, bulge});
    }
    return {loop, {}};
  }

 private:
  Loop outline() {
    switch (whole(0, 4)) {
      case 0: return Loop::circle({50, 30}, 40);
      case 1: return Loop::rectangle({0, 0}, {100, 60});
      case 2: return Loop::rounded_rectangle({0, 0}, {100, 60}, between(2, 30));
      case 3: return Loop::hexagon({50, 30}, 60);
      default:
        return {
            {{{0, 0}}, {{100, 0}}, {{100, 20}}, {{40, 20}, -std::tan(M_PI / 8)}, {{30, 30}}, {{30, 60}}, {{0, 60}}}};
    }
  }

  // A circle, or a racetrack along the edge, that stands off a place on the loop by one of some gaps: 0 touches.
  Loop hole_beside(const Loop& loop, bool within) {
    const auto edges = loop.edges();
    const Edge& e = edges[static_cast<std::size_t>(whole(0, static_cast<int>(edges.size()) - 1))];
    const double share = between(0.05, 0.95);
    Vec2 at = e.from + share * (e.to - e.from);
    Vec2 out = (1 / norm(e.to - e.from)) * Vec2{(e.to - e.from).y, (e.from - e.to).x};
    if (!e.straight()) {
      const Arc a = e.arc();
      const double angle = a.start + share * a.sweep;
      out = std::copysign(1.0, a.sweep) * Vec2{std::cos(angle), std::sin(angle)};
      at = a.centre + a.radius * Vec2{std::cos(angle), std::sin(angle)};
    }
    static const std::vector<double> gaps{0,     1e-9, -1e-9, 3e-8, 2e-6, 5e-5, -5e-5, 3e-4, -3e-4, 0.05,
                                          -0.05, 0.3,  1,     -1,   2,    2.5,  3,     4,    5,     6};
    const double gap = gaps[static_cast<std::size_t>(whole(0, static_cast<int>(gaps.size()) - 1))];
    const double radius = between(1, 5);
    const bool wrong_side = whole(0, 11) == 0;
    const Vec2 centre = at + (within != wrong_side ? -1.0 : 1.0) * (radius + gap) * out;
    if (whole(0, 2) > 0) return Loop::circle(centre, radius);
    const Vec2 run{out.y, -out.x};
    const Vec2 back = centre - 2 * run;
    const Vec2 front = centre + 2 * run;
    const Vec2 up = radius * out;
    return {{{back - up}, {front - up, 1}, {front + up}, {back + up, 1}}};
  }
};

bool valid_to_the_kernel(const TopoDS_Face& face) { return BRepCheck_Analyzer(face).IsValid(); }

double nearest_wires_mm(const TopoDS_Face& face) {
  std::vector<TopoDS_Shape> wires;
  for (TopExp_Explorer it(face, TopAbs_WIRE); it.More(); it.Next()) wires.push_back(it.Current());
  double least = 1e300;
  for (std::size_t i = 0; i < wires.size(); ++i) {
    for (std::size_t j = 0; j < i; ++j) least = std::min(least, BRepExtrema_DistShapeShape(wires[i], wires[j]).Value());
  }
  return least;
}

std::string in_words(const Profile& p) {
  std::string out;
  const auto add = [&out](const Loop& loop) {
    out += "\n ";
    for (const Vertex& v : loop.vertices) out += fmt::format(" ({:.10g} {:.10g} b{:.10g})", v.at.x, v.at.y, v.bulge);
  };
  add(p.outer);
  for (const Loop& hole : p.holes) add(hole);
  return out;
}

TEST(FlawAndKernel, agree_on_holes_that_touch_cross_or_stand_free) {
  const unsigned seed = 2718;
  SCOPED_TRACE(testing::Message() << "seed " << seed);
  Maker maker(seed);
  int flawed = 0;
  int touching = 0;
  constexpr int all = 2000;
  for (int i = 0; i < all && !testing::Test::HasFailure(); ++i) {
    const Profile p = maker.with_holes();
    const TopoDS_Face face = solid::face_of(p, Pose());
    const bool valid = valid_to_the_kernel(face);
    const double nearest = nearest_wires_mm(face);
    const auto flaw = flaw_in(p);
    if (flaw) ++flawed;
    if (valid && nearest <= tolerance::contact_mm) ++touching;
    EXPECT_EQ(flaw.has_value(), !valid || nearest <= tolerance::contact_mm)
        << "profile " << i << ": " << flaw.value_or("no flaw") << "; to the kernel " << (valid ? "valid" : "invalid")
        << ", nearest wires " << nearest << " mm" << in_words(p);
  }
  EXPECT_GT(flawed, all / 4);
  EXPECT_LT(flawed, all * 3 / 4);
  EXPECT_GT(touching, 50) << "the kernel's checker alone lets these pass";
}

TEST(FlawAndKernel, agree_on_outlines_that_cross_themselves) {
  const unsigned seed = 1618;
  SCOPED_TRACE(testing::Message() << "seed " << seed);
  Maker maker(seed);
  int flawed = 0;
  int sound = 0;
  for (int i = 0; i < 2000 && !testing::Test::HasFailure(); ++i) {
    const Profile p = maker.star();
    if (p.outer.area_mm2() <= 0) continue;
    const bool valid = valid_to_the_kernel(solid::face_of(p, Pose()));
    const auto flaw = flaw_in(p);
    ++(flaw ? flawed : sound);
    EXPECT_EQ(flaw.has_value(), !valid) << "profile " << i << ": " << flaw.value_or("no flaw") << in_words(p);
  }
  EXPECT_GT(flawed, 300);
  EXPECT_GT(sound, 300);
}

}  // namespace
}  // namespace fitup

// Legs as plates per band, wedges, the fillet and the toes as separate pieces.
// Entry: from_numbers.
#include "plan/numbers_builder.h"

#include <algorithm>
#include <cmath>
#include <set>
#include <stdexcept>

namespace fitup::test {

namespace {

Solid must(const Result<Solid>& made) {
  if (!made) throw std::runtime_error(made.error().operation + ": " + made.error().reason);
  return made.value();
}

// A prism over a loop in the leg's plane (x along the member, y across the leg), from `from_mm` to `to_mm`
// through the thickness.
Solid in_leg(Leg leg, Loop loop, double from_mm, double to_mm) {
  if (loop.area_mm2() < 0) {
    std::reverse(loop.vertices.begin(), loop.vertices.end());
    std::vector<double> bulges;
    for (const Vertex& v : loop.vertices) bulges.push_back(-v.bulge);
    for (std::size_t i = 0; i < bulges.size(); ++i) loop.vertices[i].bulge = bulges[(i + 1) % bulges.size()];
  }
  const Pose pose =
      leg == Leg::a ? Pose::at({0, from_mm, 0}, axis::z, axis::x) : Pose::at({to_mm, 0, 0}, axis::z, axis::y);
  return must(solid::extrude({loop, {}}, pose, to_mm - from_mm));
}

double back_at(const LegCut& cut, double across) {
  for (const CutStep& s : cut.steps) {
    if (across > s.from_mm && across < s.to_mm) return s.set_back_mm;
  }
  throw std::runtime_error("the steps leave a gap");
}

struct LegNumbers {
  Leg leg;
  double width;
  const LegCut& start;
  const LegCut& end;
};

std::vector<double> boundaries(const LegNumbers& n, double from) {
  std::set<double> all{from, n.width};
  for (const LegCut* cut : {&n.start, &n.end}) {
    for (const CutStep& s : cut->steps) {
      if (s.to_mm > from + 1e-9 && s.to_mm < n.width - 1e-9) all.insert(s.to_mm);
    }
  }
  return {all.begin(), all.end()};
}

// What a corner takes off, in the leg's plane, as a loop; `sign` 1 at the start, -1 at the end.
Loop wedge(const LegCut& cut, const CutCorner& c, double nominal, double sign) {
  const double before = back_at(cut, c.at_mm - 1e-5);
  const double after = back_at(cut, c.at_mm + 1e-5);
  const double side = before < after ? -1 : 1;  // towards which the tongue lies
  const double x = nominal + sign * std::min(before, after);
  const double c_x = x + sign * c.size_mm;
  const double c_y = c.at_mm + side * c.size_mm;
  // Left a little larger outside the material, so that the cut does not run in its faces.
  const double out_x = x - sign;
  Loop loop{
      {{{out_x, c_y}}, {{x, c_y}}, {{c_x, c.at_mm}}, {{c_x, c.at_mm - side * 1e-3}}, {{out_x, c.at_mm - side * 1e-3}}}};
  if (c.kind == CornerKind::radius) {
    // A quarter of the circle about (c_x, c_y): seen from outside it is hollow, whichever way it is run.
    const bool left_turn = cross(Vec2{c_x, c.at_mm} - Vec2{x, c_y}, Vec2{c_x, c_y} - Vec2{x, c_y}) > 0;
    loop.vertices[1].bulge = (left_turn ? 1 : -1) * (std::sqrt(2.0) - 1);
  }
  return loop;
}

std::vector<Solid> wedges(const LegNumbers& n, double length, double from, double to) {
  std::vector<Solid> out;
  for (const CutCorner& c : n.start.corners) out.push_back(in_leg(n.leg, wedge(n.start, c, 0, 1), from, to));
  for (const CutCorner& c : n.end.corners) out.push_back(in_leg(n.leg, wedge(n.end, c, length, -1), from, to));
  return out;
}

Solid less(const Solid& body, const std::vector<Solid>& tools) {
  return tools.empty() ? body : must(solid::cut(body, tools));
}

// The plates of one leg from `from` across, without the toe.
Solid plates(const Member& m, const LegNumbers& n, double from) {
  const double t = m.section.thickness_mm;
  std::vector<Solid> bands;
  const auto edges = boundaries(n, from);
  for (std::size_t i = 0; i + 1 < edges.size(); ++i) {
    const double middle = (edges[i] + edges[i + 1]) / 2;
    bands.push_back(in_leg(
        n.leg,
        Loop::rectangle({back_at(n.start, middle), edges[i]}, {m.length_mm - back_at(n.end, middle), edges[i + 1]}), 0,
        t));
  }
  const Solid leg = bands.size() == 1 ? bands.front() : must(solid::fuse(bands));
  return less(leg, wedges(n, m.length_mm, -1, t + 1));
}

// A prism of this outline in the section's plane, from end to end, less what these legs' cuts take of it.
Solid core(const Member& m, const Loop& outline, const std::vector<LegNumbers>& legs) {
  std::vector<Solid> tools;
  for (const LegNumbers& n : legs) {
    const double deep = m.section.thickness_mm + m.section.root_radius_mm + 1;
    for (const Solid& w : wedges(n, m.length_mm, -1, deep)) tools.push_back(w);
    const auto edges = boundaries(n, 0);
    for (std::size_t i = 0; i + 1 < edges.size(); ++i) {
      const double middle = (edges[i] + edges[i + 1]) / 2;
      const double from = back_at(n.start, middle);
      const double to = m.length_mm - back_at(n.end, middle);
      const double low = i == 0 ? -1 : edges[i];
      if (from > 0) tools.push_back(in_leg(n.leg, Loop::rectangle({-1, low}, {from, edges[i + 1]}), -1, deep));
      if (to < m.length_mm) {
        tools.push_back(in_leg(n.leg, Loop::rectangle({to, low}, {m.length_mm + 1, edges[i + 1]}), -1, deep));
      }
    }
  }
  return less(must(solid::extrude({outline, {}}, Pose(), m.length_mm)), tools);
}

// What the toe's rounding takes: the corner outside the arc, and a little beyond.
Solid toe_tool(const Member& m, const LegNumbers& n) {
  const double t = m.section.thickness_mm;
  const double r = std::min(m.section.toe_radius_mm, t);
  const double w = n.width;
  const double hollow = 1 - std::sqrt(2.0);
  const Loop of_a{{{{w + 1, t - r}}, {{w + 1, t + 1}}, {{w - r, t + 1}}, {{w - r, t}, hollow}, {{w, t - r}}}};
  const Loop of_b{{{{t - r, w}, hollow}, {{t, w - r}}, {{t + 1, w - r}}, {{t + 1, w + 1}}, {{t - r, w + 1}}}};
  return must(solid::extrude({n.leg == Leg::a ? of_a : of_b, {}}, Pose::at({0, 0, -1}), m.length_mm + 2));
}

Solid drill(const Member& m, const MemberHole& h) {
  const Pose pose = h.leg == Leg::a ? Pose::at({h.across_mm, -1, h.along_mm}, axis::z, axis::x)
                                    : Pose::at({-1, h.across_mm, h.along_mm}, axis::y, axis::z);
  return must(solid::extrude({Loop::circle({0, 0}, h.diameter_mm / 2), {}}, pose, m.section.thickness_mm + 2));
}

// What the saw takes beyond a mitre: a block turned by 45 degrees about the heel at that end.
Solid mitre_tool(const Member& m, Leg leg, bool at_end) {
  const double w = std::max(m.section.leg_a_mm, m.section.leg_b_mm) + 1;
  const double c = std::sqrt(0.5);
  const double in = at_end ? -c : c;  // along the member, towards its middle
  const bool low = (leg == Leg::a) != at_end;
  const Vec3 across = leg == Leg::a ? axis::x : axis::y;
  const Vec3 origin = (low ? -1 : w) * (leg == Leg::a ? axis::y : axis::x) + (at_end ? m.length_mm : 0) * axis::z;
  const Pose turned = Pose::at(origin, c * across + in * axis::z, c * across - in * axis::z);
  return must(solid::extrude({Loop::rectangle({-3, 0}, {2 * w, 2 * w}), {}}, turned, w + 1));
}

}  // namespace

Solid from_numbers(const Member& m) {
  const LegNumbers a{Leg::a, m.section.leg_a_mm, m.start.a, m.end.a};
  const LegNumbers b{Leg::b, m.section.leg_b_mm, m.start.b, m.end.b};
  std::vector<Solid> pieces;
  std::vector<Solid> tools;
  if (m.section.shape == SectionShape::flat) {
    pieces.push_back(plates(m, a, 0));
  } else {
    const double t = m.section.thickness_mm;
    const double r = m.section.root_radius_mm;
    pieces = {plates(m, a, t), plates(m, b, t), core(m, Loop::rectangle({0, 0}, {t, t}), {a, b})};
    const Loop fillet{{{{t, t}}, {{t + r, t}, 1 - std::sqrt(2.0)}, {{t, t + r}}}};
    for (const LegNumbers& leg : {a, b}) {
      if (r > 0) pieces.push_back(core(m, fillet, {leg}));
    }
    if (m.section.toe_radius_mm > 0) tools = {toe_tool(m, a), toe_tool(m, b)};
  }
  for (const MemberHole& h : m.holes) tools.push_back(drill(m, h));
  if (m.start.mitre) tools.push_back(mitre_tool(m, *m.start.mitre, false));
  if (m.end.mitre) tools.push_back(mitre_tool(m, *m.end.mitre, true));
  return less(pieces.size() == 1 ? pieces.front() : must(solid::fuse(pieces)), tools);
}

}  // namespace fitup::test

// A part's data turned into outlines, prisms and volumes. No kernel: closed forms and exact profiles.
// Entry: kept_outline, body_of, volume_mm3.
#include <algorithm>
#include <array>
#include <cmath>

#include "fitup/plan.h"
#include "fitup/tolerances.h"
#include "plan/bends.h"
#include "plan/mitre.h"
#include "plan/section_cut.h"
#include "plan/tube.h"

namespace fitup {

namespace {

constexpr double tiny_mm = tolerance::coincident_mm;

void add_vertex(std::vector<Vertex>& out, Vec2 at, double bulge = 0) {
  if (!out.empty() && norm(out.back().at - at) < tiny_mm) {
    out.back().bulge = bulge;
    return;
  }
  out.push_back({at, bulge});
}

const CutCorner* corner_at(const LegCut& cut, double at_mm) {
  const auto it = std::find_if(cut.corners.begin(), cut.corners.end(), [at_mm](const CutCorner& c) {
    return c.kind != CornerKind::square && std::abs(c.at_mm - at_mm) < tiny_mm;
  });
  return it == cut.corners.end() ? nullptr : &*it;
}

// The boundary between two steps, the corner taken off the one that reaches further out.
void add_boundary(const LegCut& cut, double before_mm, const CutStep& after, double bulge, std::vector<Vertex>& out) {
  const double at = after.from_mm;
  const CutCorner* corner = corner_at(cut, at);
  const double size = corner == nullptr ? 0 : corner->size_mm;
  const double arc = corner != nullptr && corner->kind == CornerKind::radius ? bulge : 0;
  const double inner = std::min(before_mm, after.set_back_mm) + size;
  if (before_mm < after.set_back_mm) {
    add_vertex(out, {before_mm, at - size}, arc);
    add_vertex(out, {inner, at});
    add_vertex(out, {after.set_back_mm, at});
  } else {
    add_vertex(out, {before_mm, at});
    add_vertex(out, {inner, at}, arc);
    add_vertex(out, {after.set_back_mm, at + size});
  }
}

// The end's outline with growing distance from the heel, as (set-back, across); a rounded corner bulges by
// `bulge` in this direction of travel.
std::vector<Vertex> end_outline(const Member& m, Leg leg, const EndCut& end, double bulge) {
  if (end.mitre) {
    // The other leg is bevelled: whole from its inner face on.
    const double width = leg == Leg::a ? m.section.leg_a_mm : m.section.leg_b_mm;
    const double t = m.section.thickness_mm;
    return *end.mitre == leg ? std::vector<Vertex>{{{0, 0}}, {{width, width}}}
                             : std::vector<Vertex>{{{t, 0}}, {{t, width}}};
  }
  const LegCut& cut = leg == Leg::a ? end.a : end.b;
  if (cut.steps.empty()) return {};
  std::vector<Vertex> out{{{cut.steps.front().set_back_mm, cut.steps.front().from_mm}}};
  for (std::size_t i = 1; i < cut.steps.size(); ++i) {
    if (cut.steps[i].set_back_mm != cut.steps[i - 1].set_back_mm) {
      add_boundary(cut, cut.steps[i - 1].set_back_mm, cut.steps[i], bulge, out);
    }
  }
  add_vertex(out, {cut.steps.back().set_back_mm, cut.steps.back().to_mm});
  return out;
}

// Along the toe, back from the end to the start.
void add_notches(const Member& m, Leg leg, std::vector<Vertex>& out) {
  std::vector<MemberNotch> notches;
  for (const MemberNotch& n : m.notches) {
    if (n.leg == leg) notches.push_back(n);
  }
  std::sort(notches.begin(), notches.end(),
            [](const MemberNotch& a, const MemberNotch& b) { return a.from_mm > b.from_mm; });
  const double toe = leg == Leg::a ? m.section.leg_a_mm : m.section.leg_b_mm;
  for (const MemberNotch& n : notches) {
    for (const Vec2 at : {Vec2{n.to_mm, toe}, Vec2{n.to_mm, toe - n.depth_mm}, Vec2{n.from_mm, toe - n.depth_mm},
                          Vec2{n.from_mm, toe}}) {
      add_vertex(out, at);
    }
  }
}

// Straight runs that only pass through a point are joined.
Loop without_flat_corners(std::vector<Vertex> v) {
  Loop loop;
  const std::size_t n = v.size();
  for (std::size_t i = 0; i < n; ++i) {
    const Vertex& before = v[(i + n - 1) % n];
    const Vertex& after = v[(i + 1) % n];
    const bool straight =
        before.bulge == 0 && v[i].bulge == 0 && std::abs(cross(v[i].at - before.at, after.at - v[i].at)) < tiny_mm;
    if (!straight) loop.vertices.push_back(v[i]);
  }
  return loop;
}

Bore bore_of(const Section& section, const MemberHole& hole) {
  // Square through the leg: leg A's thickness is along y, leg B's along x.
  if (hole.leg == Leg::a) {
    return {hole.diameter_mm, Pose::at({hole.across_mm, 0, hole.along_mm}, axis::z, axis::x), section.thickness_mm};
  }
  return {hole.diameter_mm, Pose::at({0, hole.across_mm, hole.along_mm}, axis::y, axis::z), section.thickness_mm};
}

// A corner that is taken off is bounded by steps, as shares of its length from the tip. They are chosen so that the
// outer steps stay off a root fillet of radius r that the chamfer's tip touches: a step from a to b must begin above
// the fillet's height at b, r - sqrt(r^2 - b^2); the first one's is far below the contact band.
constexpr std::array<double, 6> corner_steps{0, 0.001, 0.04, 0.28, 0.72, 1};

double kept_width(const plan::Intervals& kept) {
  double sum = 0;
  for (const plan::Interval& i : kept) sum += i.high - i.low;
  return sum;
}

// What a leg keeps at both ends of a slab: along a corner one contains the other.
std::pair<plan::Intervals, plan::Intervals> narrow_and_wide(const Member& m, Leg leg, double low, double high) {
  plan::Intervals at_low = plan::kept_at(m, leg, low + tiny_mm);
  plan::Intervals at_high = plan::kept_at(m, leg, high - tiny_mm);
  if (kept_width(at_low) > kept_width(at_high)) std::swap(at_low, at_high);
  return {std::move(at_low), std::move(at_high)};
}

void add_slab(const Member& m, double low, double high, Body& body) {
  const auto [narrow_a, wide_a] = narrow_and_wide(m, Leg::a, low, high);
  const auto [narrow_b, wide_b] = narrow_and_wide(m, Leg::b, low, high);
  const Pose pose = Pose::at({0, 0, low});
  for (const Profile& p : plan::kept_pieces(m.section, wide_a, wide_b)) body.outer.push_back({p, pose, high - low});
  for (const Profile& p : plan::kept_pieces(m.section, narrow_a, narrow_b)) body.inner.push_back({p, pose, high - low});
}

void add_corner(const Member& m, double low, double high, Body& body) {
  const auto width = [&m](double along) {
    return kept_width(plan::kept_at(m, Leg::a, along)) + kept_width(plan::kept_at(m, Leg::b, along));
  };
  const bool tip_is_low = width(low + tiny_mm) < width(high - tiny_mm);
  const double tip = tip_is_low ? low : high;
  const double root = tip_is_low ? high : low;
  for (std::size_t k = 0; k + 1 < corner_steps.size(); ++k) {
    const double from = tip + corner_steps[k] * (root - tip);
    const double to = tip + corner_steps[k + 1] * (root - tip);
    add_slab(m, std::min(from, to), std::max(from, to), body);
  }
}

bool in_a_corner(const plan::Intervals& runs, double along_mm) {
  return std::any_of(runs.begin(), runs.end(),
                     [along_mm](const plan::Interval& r) { return along_mm > r.low && along_mm < r.high; });
}

Body body_of_member(const Member& mitred) {
  Body body;
  const Member m = plan::without_mitres(mitred);
  const double from = plan::mitre_run_mm(m.section, mitred.start);
  const double to = m.length_mm - plan::mitre_run_mm(m.section, mitred.end);
  auto points = plan::breakpoints(m);
  for (double& p : points) p = std::clamp(p, from, to);
  const auto runs = plan::corner_runs(m);
  for (std::size_t i = 0; i + 1 < points.size(); ++i) {
    if (points[i + 1] - points[i] < tiny_mm) continue;
    if (in_a_corner(runs, (points[i] + points[i + 1]) / 2)) {
      add_corner(m, points[i], points[i + 1], body);
    } else {
      add_slab(m, points[i], points[i + 1], body);
    }
  }
  plan::add_mitred_runs(mitred, body);
  body.exact = runs.empty() && !mitred.start.mitre && !mitred.end.mitre;
  for (const MemberHole& h : m.holes) {
    if (h.slot_mm == 0) body.bores.push_back(bore_of(m.section, h));
  }
  return body;
}

// The slots of a leg, from the start on; all on one line.
std::vector<MemberHole> slots_of(const Member& m, Leg leg) {
  std::vector<MemberHole> slots;
  for (const MemberHole& h : m.holes) {
    if (h.leg == leg && h.slot_mm > 0) slots.push_back(h);
  }
  std::sort(slots.begin(), slots.end(),
            [](const MemberHole& a, const MemberHole& b) { return a.along_mm < b.along_mm; });
  return slots;
}

// What stays of the slots' line from `from_mm` to `to_mm`, hollow where a round end begins, as (along, across).
Profile between_slots(double from_mm, bool hollow_at_from, double to_mm, bool hollow_at_to, double low, double high) {
  // With the material at its left, so that a round end of the void bulges the other way.
  const double half_circle = -1;
  return {Loop{{{{from_mm, low}},
                {{to_mm, low}, hollow_at_to ? half_circle : 0},
                {{to_mm, high}},
                {{from_mm, high}, hollow_at_from ? half_circle : 0}}},
          {}};
}

// The line of a leg that its slots take, as wide as these are: what is left between them, across the thickness.
void add_slotted_line(const Member& m, Leg leg, const std::vector<MemberHole>& slots, Body& body) {
  const double low = slots.front().across_mm - slots.front().diameter_mm / 2;
  const double high = low + slots.front().diameter_mm;
  const double t = m.section.thickness_mm;
  const Pose pose = leg == Leg::a ? Pose::at({0, 0, 0}, axis::z, axis::x) : Pose::at({t, 0, 0}, axis::z, axis::y);
  double from = 0;
  for (std::size_t i = 0; i <= slots.size(); ++i) {
    const bool last = i == slots.size();
    const double to = last ? m.length_mm : slots[i].along_mm - slots[i].slot_mm / 2;
    body.outer.push_back({between_slots(from, i > 0, to, !last, low, high), pose, t});
    if (!last) from = slots[i].along_mm + slots[i].slot_mm / 2;
  }
}

// Square at both ends and without notches; slots stand where the leg is of even thickness.
Body body_of_slotted(const Member& m) {
  Body body;
  std::array<plan::Intervals, 2> kept{plan::kept_at(m, Leg::a, m.length_mm / 2),
                                      plan::kept_at(m, Leg::b, m.length_mm / 2)};
  for (const Leg leg : {Leg::a, Leg::b}) {
    const auto slots = slots_of(m, leg);
    if (slots.empty()) continue;
    plan::Intervals& whole = kept[leg == Leg::a ? 0 : 1];
    const double low = slots.front().across_mm - slots.front().diameter_mm / 2;
    whole = {{whole.front().low, low}, {low + slots.front().diameter_mm, whole.back().high}};
    add_slotted_line(m, leg, slots, body);
  }
  for (const Profile& p : plan::kept_pieces(m.section, kept[0], kept[1])) {
    body.outer.push_back({p, Pose{}, m.length_mm});
  }
  for (const MemberHole& h : m.holes) {
    if (h.slot_mm == 0) body.bores.push_back(bore_of(m.section, h));
  }
  body.inner = body.outer;
  return body;
}

bool has_slots(const Member& m) {
  return std::any_of(m.holes.begin(), m.holes.end(), [](const MemberHole& h) { return h.slot_mm > 0; });
}

Profile with_drilled(const Flat& flat) {
  Profile profile = flat.profile;
  for (const DrilledHole& d : flat.drilled) profile.holes.push_back(Loop::circle(d.at, d.diameter_mm / 2));
  return profile;
}

double kept_area_mm2(const Member& m, double along_mm) {
  double area = 0;
  for (const Profile& p :
       plan::kept_pieces(m.section, plan::kept_at(m, Leg::a, along_mm), plan::kept_at(m, Leg::b, along_mm))) {
    area += p.area_mm2();
  }
  return area;
}

// Gauss-Legendre, five points a panel, over the few millimetres in which a corner is taken off; several panels,
// since the moving edge passes the kinks at thickness, root and toe.
double integrated_mm3(const Member& m, double low, double high) {
  constexpr std::array<double, 5> at{-0.9061798459386640, -0.5384693101056831, 0, 0.5384693101056831,
                                     0.9061798459386640};
  constexpr std::array<double, 5> weight{0.2369268850561891, 0.4786286704993665, 0.5688888888888889, 0.4786286704993665,
                                         0.2369268850561891};
  constexpr int panels = 24;
  const double h = (high - low) / panels;
  double sum = 0;
  for (int p = 0; p < panels; ++p) {
    for (std::size_t i = 0; i < at.size(); ++i) sum += weight[i] * kept_area_mm2(m, low + (p + 0.5 + at[i] / 2) * h);
  }
  return sum * h / 2;
}

// Holes of a leg never meet: a hole that would is not made (holes.cpp).
double bored_area_mm2(const Member& m) {
  double area = 0;
  for (const MemberHole& h : m.holes) area += h.diameter_mm * (M_PI / 4 * h.diameter_mm + h.slot_mm);
  return area;
}

double volume_of_member(const Member& mitred) {
  const Member m = plan::without_mitres(mitred);
  const auto points = plan::breakpoints(m);
  const auto runs = plan::corner_runs(m);
  double volume = -m.section.thickness_mm * bored_area_mm2(m) - plan::mitre_loss_mm3(mitred);
  for (std::size_t i = 0; i + 1 < points.size(); ++i) {
    const double middle = (points[i] + points[i + 1]) / 2;
    volume += in_a_corner(runs, middle) ? integrated_mm3(m, points[i], points[i + 1])
                                        : (points[i + 1] - points[i]) * kept_area_mm2(m, middle);
  }
  return volume;
}

}  // namespace

Pose mitre_plane(Leg leg, double from_mm, double to_mm, std::optional<double> end_at_mm) {
  const Vec3 across = leg == Leg::a ? axis::x : axis::y;
  const Vec3 other = leg == Leg::a ? axis::y : axis::x;
  const Vec3 along = end_at_mm ? axis::minus_z : axis::z;
  // The plane's z runs up or down the other leg, so that nothing is mirrored.
  const bool up = dot(cross(along, across), other) > 0;
  return Pose::at((up ? from_mm : to_mm) * other + end_at_mm.value_or(0) * axis::z, along, across);
}

Loop kept_outline(const Member& member, Leg leg) {
  if (plan::is_tube(member.section)) return plan::wall_outline(member, leg, false);
  const double quarter = std::tan(M_PI / 8);
  std::vector<Vertex> out;
  for (const Vertex& v : end_outline(member, leg, member.end, quarter))
    add_vertex(out, {member.length_mm - v.at.x, v.at.y}, v.bulge);
  add_notches(member, leg, out);
  for (const Vertex& v : Loop{end_outline(member, leg, member.start, -quarter)}.reversed().vertices)
    add_vertex(out, v.at, v.bulge);
  return without_flat_corners(std::move(out));
}

Loop outline_of(const MemberHole& hole) {
  const Vec2 middle{hole.along_mm, hole.across_mm};
  const double r = hole.diameter_mm / 2;
  if (hole.slot_mm == 0) return Loop::circle(middle, r);
  const Vec2 half{hole.slot_mm / 2 + r, r};
  return Loop::rounded_rectangle(middle - half, middle + half, r);
}

Body body_of(const Part& part) {
  Body body;
  if (const auto* flat = std::get_if<Flat>(&part.form)) {
    if (flat->bends.empty()) body.outer.push_back({with_drilled(*flat), Pose{}, flat->thickness_mm});
    if (!flat->bends.empty()) body.outer = plan::bent_prisms(*flat);
    body.inner = body.outer;
  } else if (const auto* member = std::get_if<Member>(&part.form)) {
    body = plan::is_tube(member->section) ? plan::tube_body(*member)
           : has_slots(*member)           ? body_of_slotted(*member)
                                          : body_of_member(*member);
  } else {
    body.outer = std::get<Solidform>(part.form).prisms;
    body.inner = body.outer;
  }
  return body;
}

bool is_unvented_tube(const Part& part) {
  const auto* member = std::get_if<Member>(&part.form);
  if (member == nullptr || !plan::is_tube(member->section)) return false;
  const double middle = member->length_mm / 2;
  const auto open = [&](bool start) {
    return std::any_of(member->holes.begin(), member->holes.end(), [&](const MemberHole& h) {
      return h.purpose == vent_purpose && (h.along_mm < middle) == start;
    });
  };
  return !open(true) || !open(false);
}

double volume_mm3(const Part& part) {
  if (const auto* member = std::get_if<Member>(&part.form)) {
    return plan::is_tube(member->section) ? plan::tube_volume_mm3(*member) : volume_of_member(*member);
  }
  double volume = 0;
  if (const auto* flat = std::get_if<Flat>(&part.form)) {
    if (flat->bends.empty()) return with_drilled(*flat).area_mm2() * flat->thickness_mm;
    for (const Prism& p : plan::bent_prisms(*flat)) volume += p.volume_mm3();
  } else {
    for (const Prism& p : std::get<Solidform>(part.form).prisms) volume += p.volume_mm3();
  }
  return volume;
}

}  // namespace fitup

// Builds a member: the section run from end to end, less one tool for each leg and end, less the holes.
// Entry: solid::member_solid.
#include "solid/member.h"

#include <fmt/format.h>
#include <BRepAlgoAPI_Common.hxx>
#include <algorithm>
#include <cmath>
#include <optional>

#include "fitup/tolerances.h"
#include "solid/shapes.h"

namespace fitup::solid {
namespace {

/// How far tools reach past the material, so that no face of a tool lies in a face of the member by chance.
constexpr double past_mm = 1;

bool near(double a, double b) { return std::abs(a - b) <= tolerance::coincident_mm; }

/// One end's boundary of a kept outline.
using Chain = std::vector<Vertex>;

/// Part of a loop from vertex `first` to vertex `last`, both included.
Chain part_of(const Loop& loop, std::size_t first, std::size_t last) {
  Chain chain;
  const std::size_t count = loop.vertices.size();
  for (std::size_t i = first;; i = (i + 1) % count) {
    chain.push_back(loop.vertices[i]);
    if (i == last) break;
  }
  chain.back().bulge = 0;
  return chain;
}

/// The corner of the outline on the line y = `y_mm` that is furthest along (`sign` 1) or back (`sign` -1).
std::size_t extreme_on(const Loop& loop, double y_mm, double sign) {
  std::optional<std::size_t> best;
  for (std::size_t i = 0; i < loop.vertices.size(); ++i) {
    const Vec2 at = loop.vertices[i].at;
    if (!near(at.y, y_mm)) continue;
    if (!best || sign * at.x > sign * loop.vertices[*best].at.x) best = i;
  }
  if (!best) throw Trouble(fmt::format("nothing of a leg is kept at {} mm from its heel", y_mm));
  return *best;
}

/// What is kept of a leg, and its boundary at either end: `end` runs away from the heel edge, `start` back to it.
struct Kept {
  Loop outline;
  double width_mm = 0;
  Box2 bounds;
  Chain start;
  Chain end;
};

Kept kept_of(const Member& member, Leg leg) {
  Kept kept;
  kept.outline = kept_outline(member, leg);
  kept.width_mm = leg == Leg::a ? member.section.leg_a_mm : member.section.leg_b_mm;
  kept.bounds = kept.outline.bounds();
  const auto corner = [&](double y_mm, double sign) { return extreme_on(kept.outline, y_mm, sign); };
  kept.end = part_of(kept.outline, corner(0, 1), corner(kept.width_mm, 1));
  kept.start = part_of(kept.outline, corner(kept.width_mm, -1), corner(0, -1));
  return kept;
}

bool square_at(const Chain& chain, double along_mm) {
  return std::all_of(chain.begin(), chain.end(), [&](const Vertex& v) { return near(v.at.x, along_mm); });
}

/// What lies beyond one end's boundary, as far as `limit_mm` along; it reaches past both edges of the leg.
Profile beyond(const Chain& chain, double limit_mm) {
  const Chain back = Loop{chain}.reversed().vertices;
  const double sign = chain.front().at.y < chain.back().at.y ? 1 : -1;  // 1: the far end
  const Vec2 first = chain.front().at;
  const Vec2 last = chain.back().at;
  Profile profile;
  auto& corners = profile.outer.vertices;
  corners.push_back({{first.x, first.y - sign * past_mm}});
  corners.push_back({{limit_mm, first.y - sign * past_mm}});
  corners.push_back({{limit_mm, last.y + sign * past_mm}});
  corners.push_back({{last.x, last.y + sign * past_mm}});
  corners.insert(corners.end(), back.begin(), back.end());
  return profile;
}

/// Where a leg's outline lies in the member: leg A in local z and x, leg B in local z and y. The outline's
/// plane stands at `from_mm` and is run towards `to_mm` across the thickness.
TopoDS_Solid across_leg(const Profile& outline, Leg leg, double from_mm, double to_mm) {
  if (leg == Leg::a) return prism(outline, Pose::at({0, from_mm, 0}, axis::z, axis::x), to_mm - from_mm);
  return prism(outline, Pose::at({to_mm, 0, 0}, axis::z, axis::y), to_mm - from_mm);
}

/// Where the boundary stands, if it is the same all the way across from `from_mm` to `to_mm`.
std::optional<double> straight_across(const Chain& chain, double from_mm, double to_mm) {
  std::optional<double> along;
  for (std::size_t i = 0; i + 1 < chain.size(); ++i) {
    const Vec2 a = chain[i].at;
    const Vec2 b = chain[i + 1].at;
    if (std::max(a.y, b.y) <= from_mm || std::min(a.y, b.y) >= to_mm) continue;
    if (!near(a.x, b.x) || chain[i].bulge != 0 || (along && !near(*along, a.x))) return std::nullopt;
    along = a.x;
  }
  return along;
}

/// Whether one leg's cut takes nothing of the root that the other's does not: then its tool may run on through
/// the root. `towards` is 1 at the far end, where what lies beyond has the greater place, and -1 at the start.
bool takes_less(const Chain& chain, const Chain& other, double inner, double outer, double towards) {
  const auto along = straight_across(other, inner, outer);
  return along &&
         std::all_of(chain.begin(), chain.end(), [&](const Vertex& v) { return towards * v.at.x >= towards * *along; });
}

/// The part of the root that both legs' cuts take.
TopoDS_Solid where_both_go(const Profile& beyond_a, const Profile& beyond_b, double inner, double outer) {
  TopTools_ListOfShape arguments;
  TopTools_ListOfShape others;
  arguments.Append(across_leg(beyond_a, Leg::a, inner, outer));
  others.Append(across_leg(beyond_b, Leg::b, inner, outer));
  BRepAlgoAPI_Common common;
  common.SetArguments(arguments);
  common.SetTools(others);
  common.Build();
  if (common.HasErrors()) throw Trouble("the kernel reports an error where the legs' end cuts meet");
  return only_solid(made(common, "root of an end cut"));
}

/// Tools of an angle's end, where the section would run on to `run_mm` (its furthest kept place). The root
/// fillet goes only where both legs go.
void add_end_tools(const Section& section, const Chain& a, const Chain& b, double run_mm, double towards,
                   TopTools_ListOfShape& tools) {
  const bool cut_a = !square_at(a, run_mm);
  const bool cut_b = !square_at(b, run_mm);
  const Profile beyond_a = beyond(a, run_mm + towards * past_mm);
  const Profile beyond_b = beyond(b, run_mm + towards * past_mm);
  const double inner = section.thickness_mm;
  const double outer = inner + section.root_radius_mm + past_mm;
  const bool root_cut = cut_a && cut_b && section.root_radius_mm > 0;
  const bool with_a = root_cut && takes_less(a, b, inner, outer, towards);
  const bool with_b = root_cut && !with_a && takes_less(b, a, inner, outer, towards);
  if (cut_a) tools.Append(across_leg(beyond_a, Leg::a, -past_mm, with_a ? outer : inner));
  if (cut_b) tools.Append(across_leg(beyond_b, Leg::b, -past_mm, with_b ? outer : inner));
  if (root_cut && !with_a && !with_b) tools.Append(where_both_go(beyond_a, beyond_b, inner, outer));
}

TopoDS_Solid drill(const MemberHole& hole, const Section& section) {
  // Long enough to clear the root as a drill would, not long enough to reach far into anything else.
  const double length = section.thickness_mm + section.root_radius_mm + 2 * past_mm;
  if (hole.slot_mm > 0) return across_leg({outline_of(hole), {}}, hole.leg, -past_mm, length - past_mm);
  const Pose pose = hole.leg == Leg::a ? Pose::at({hole.across_mm, -past_mm, hole.along_mm}, axis::z, axis::x)
                                       : Pose::at({-past_mm, hole.across_mm, hole.along_mm}, axis::y, axis::z);
  return cylinder(hole.diameter_mm, pose, length);
}

/// What a mitre takes: everything before the line at 45 degrees, and a little beyond both legs.
TopoDS_Solid mitre_tool(const Section& section, Leg leg, std::optional<double> end_at_mm) {
  const double far = std::max(section.leg_a_mm, section.leg_b_mm) + past_mm;
  const Profile before{Loop::polygon({{-2 * past_mm, -past_mm}, {-past_mm, -past_mm}, {far, far}, {-2 * past_mm, far}}),
                       {}};
  return prism(before, mitre_plane(leg, -past_mm, far, end_at_mm), far + past_mm);
}

/// What a notch takes, past the toe and both faces of the leg; of the other leg nothing.
TopoDS_Solid notch_tool(const MemberNotch& notch, const Section& section) {
  const double toe = notch.leg == Leg::a ? section.leg_a_mm : section.leg_b_mm;
  const Profile outline{Loop::rectangle({notch.from_mm, toe - notch.depth_mm}, {notch.to_mm, toe + past_mm}), {}};
  return across_leg(outline, notch.leg, -past_mm, section.thickness_mm + past_mm);
}

TopoDS_Solid angle_solid(const Member& mitred) {
  Member member = mitred;
  member.start.mitre.reset();
  member.end.mitre.reset();
  const Kept a = kept_of(member, Leg::a);
  const Kept b = kept_of(member, Leg::b);
  const double from = std::min(a.bounds.low.x, b.bounds.low.x);
  const double to = std::max(a.bounds.high.x, b.bounds.high.x);
  TopTools_ListOfShape tools;
  add_end_tools(member.section, a.start, b.start, from, -1, tools);
  add_end_tools(member.section, a.end, b.end, to, 1, tools);
  for (const MemberHole& hole : member.holes) tools.Append(drill(hole, member.section));
  for (const MemberNotch& notch : member.notches) tools.Append(notch_tool(notch, member.section));
  if (mitred.start.mitre) tools.Append(mitre_tool(member.section, *mitred.start.mitre, {}));
  if (mitred.end.mitre) tools.Append(mitre_tool(member.section, *mitred.end.mitre, member.length_mm));
  const TopoDS_Solid run = prism(profile_of(member.section), Pose::at({0, 0, from}), to - from);
  return tools.IsEmpty() ? run : cut_by(run, tools);
}

/// A flat bar has one leg: its kept outline with the holes in it, through the thickness.
TopoDS_Solid flat_solid(const Member& member) {
  Profile profile{kept_outline(member, Leg::a), {}};
  for (const MemberHole& hole : member.holes) {
    if (hole.leg != Leg::a) throw Trouble("a flat bar has no leg B to put a hole in");
    profile.holes.push_back(outline_of(hole));
  }
  if (const auto flaw = flaw_in(profile)) throw Trouble(*flaw);
  return across_leg(profile, Leg::a, 0, member.section.thickness_mm);
}

/// Through one wall only.
TopoDS_Solid drill_wall(const MemberHole& hole, const Section& section) {
  const bool a = hole.leg == Leg::a;
  const double wall = section.thickness_mm;
  const double from = hole.far_wall ? (a ? section.leg_b_mm : section.leg_a_mm) - wall - past_mm : -past_mm;
  const Pose pose = a ? Pose::at({hole.across_mm, from, hole.along_mm}, axis::z, axis::x)
                      : Pose::at({from, hole.across_mm, hole.along_mm}, axis::y, axis::z);
  return cylinder(hole.diameter_mm, pose, wall + 2 * past_mm);
}

/// The hollow section run from end to end, less the mitres and the holes.
TopoDS_Solid tube_solid(const Member& member) {
  const Section& s = member.section;
  TopTools_ListOfShape tools;
  for (const MemberHole& hole : member.holes) tools.Append(drill_wall(hole, s));
  if (member.start.mitre) tools.Append(mitre_tool(s, *member.start.mitre, {}));
  if (member.end.mitre) tools.Append(mitre_tool(s, *member.end.mitre, member.length_mm));
  const TopoDS_Solid run = prism(profile_of(s), Pose::at({0, 0, 0}), member.length_mm);
  return tools.IsEmpty() ? run : cut_by(run, tools);
}

}  // namespace

TopoDS_Solid member_solid(const Member& member) {
  if (member.section.shape == SectionShape::tube) return tube_solid(member);
  return member.section.shape == SectionShape::angle ? angle_solid(member) : flat_solid(member);
}

}  // namespace fitup::solid

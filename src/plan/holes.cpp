// Holes placed in the world.
// Entry: make_hole, clear_screw_tips, spread.
#include "plan/holes.h"

#include <algorithm>
#include <cassert>
#include <cmath>

#include <fmt/format.h>

#include "diag/catalogue.h"
#include "fitup/tolerances.h"
#include "geometry/intersect.h"
#include "plan/bends.h"
#include "plan/coat.h"
#include "plan/tube.h"

namespace fitup::plan {

namespace {

bool parallel(Vec3 a, Vec3 b) { return std::abs(std::abs(dot(a, b)) - 1) < tolerance::direction; }

using Problem = std::optional<std::string>;

constexpr double widest_web_mm = 3;  // more is never asked for

// How far a point inside the loop stands from its outline; negative outside.
double depth_in_mm(const Loop& loop, Vec2 at) {
  if (const auto circle = loop.as_circle()) return circle->radius - norm(at - circle->centre);
  double distance = 1e300;
  for (const Edge& edge : loop.edges()) distance = std::min(distance, geometry::distance_mm(edge, at));
  return geometry::side_of(loop, at) == geometry::Side::inside ? distance : -distance;
}

Problem too_near_edge(const Build& build, const Loop& outline, Vec2 at, double diameter_mm, double thickness_mm,
                      const char* what) {
  const double left = depth_in_mm(outline, at) - diameter_mm / 2;
  const double needed = web_mm(thickness_mm);
  if (left >= needed - tolerance::contact_mm) return std::nullopt;
  if (left < tolerance::contact_mm) return fmt::format("would leave the {} or break its edge", what);
  return fmt::format("would leave {} to the edge of the {} and needs {}", build.in_words(left), what,
                     build.in_words(needed));
}

Problem too_near_hole(const Build& build, double apart_mm, double thickness_mm, const std::string& other) {
  const double needed = web_mm(thickness_mm);
  if (apart_mm >= needed - tolerance::contact_mm) return std::nullopt;
  if (apart_mm < tolerance::contact_mm) return "would run into " + other;
  return fmt::format("would leave {} to {} and needs {}", build.in_words(apart_mm), other, build.in_words(needed));
}

double apart_mm(Vec2 a, double diameter_a, Vec2 b, double diameter_b) {
  return norm(a - b) - (diameter_a + diameter_b) / 2;
}

// A round hole of the plate's, or one of the circles that a slot is swept by.
Problem circle_in_flat(const Build& build, const Flat& flat, Vec2 at, const RoundHole& hole) {
  const double t = flat.thickness_mm;
  if (auto problem = too_near_edge(build, flat.profile.outer, at, hole.diameter_mm, t, "plate")) return problem;
  for (const DrilledHole& d : flat.drilled) {
    const double apart = apart_mm(at, hole.diameter_mm, d.at, d.diameter_mm);
    if (auto problem = too_near_hole(build, apart, t, "the hole to " + d.purpose)) return problem;
  }
  for (const Loop& h : flat.profile.holes) {
    const double apart = -depth_in_mm(h, at) - hole.diameter_mm / 2;
    if (auto problem = too_near_hole(build, apart, t, "another hole")) return problem;
  }
  return std::nullopt;
}

// Two arcs and two lines, the middle of one end to that of the other `along`.
Problem slot_in_flat(const Build& build, Flat& flat, Vec2 at, Vec2 along, const RoundHole& hole) {
  const double least = build.spec.cutter.rules.smallest_slot * flat.thickness_mm;
  if (hole.diameter_mm < least - tolerance::snap_mm) {
    return fmt::format("is a slot {} wide, and the cutter makes none narrower than {}",
                       build.in_words(hole.diameter_mm), build.in_words(least));
  }
  const int steps = 2 * static_cast<int>(std::ceil(hole.slot_mm / hole.diameter_mm)) + 2;
  for (int i = 0; i <= steps; ++i) {
    const double off = hole.slot_mm * (static_cast<double>(i) / steps - 0.5);
    if (auto problem = circle_in_flat(build, flat, at + off * along, hole)) return problem;
  }
  const Vec2 run = (hole.slot_mm / 2) * along;
  const Vec2 side = (hole.diameter_mm / 2) * Vec2{-along.y, along.x};
  constexpr double half_circle = 1;  // bulge
  flat.profile.holes.push_back(
      {{{at - run - side}, {at + run - side, half_circle}, {at + run + side}, {at - run + side, half_circle}}});
  return std::nullopt;
}

// Square through a wall of what is bent the hole keeps round.
Problem too_near_bend(const Build& build, const Flat& flat, Vec2 at, double diameter_mm) {
  const auto off = from_bends_mm(flat, at);
  if (!off) return std::nullopt;
  const double left = *off - diameter_mm / 2;
  const double needed = hole_to_bend_mm(flat.thickness_mm);
  if (left >= needed - tolerance::contact_mm) return std::nullopt;
  if (left < 0) return "would run into a bend";
  return fmt::format("would leave {} to a bend and needs {}", build.in_words(left), build.in_words(needed));
}

Problem hole_in_flat(const Build& build, Flat& flat, Vec2 at, const RoundHole& hole) {
  const double t = flat.thickness_mm;
  if (auto problem = circle_in_flat(build, flat, at, hole)) return problem;
  // What is smaller than the cutter can cut is marked and drilled.
  const bool too_small = hole.diameter_mm < build.spec.cutter.rules.smallest_hole * t - tolerance::snap_mm;
  if (too_small || hole.kind == HoleKind::tapped) {
    flat.drilled.push_back({at, hole.diameter_mm, hole.purpose});
  } else {
    flat.profile.holes.push_back(Loop::circle(at, hole.diameter_mm / 2));
  }
  return std::nullopt;
}

// Square through a leg of even thickness: clear of root and toe, in what the end cuts leave of the leg, and clear of
// the leg's other holes.
Problem hole_in_leg(const Build& build, Member& m, Leg leg, Vec2 at, const RoundHole& hole) {
  const Section& s = m.section;
  const double r = hole.diameter_mm / 2;
  const double root = s.shape == SectionShape::angle ? s.thickness_mm + s.root_radius_mm : 0;
  const double width = leg == Leg::a ? s.leg_a_mm : s.leg_b_mm;
  if (at.y - r < root - tolerance::contact_mm)
    return "would run into the root, which ends " + build.in_words(root) + " from the heel";
  if (at.y + r > width - s.toe_radius_mm + tolerance::contact_mm && at.y + r <= width)
    return "would run into the toe's rounding";
  const Loop kept = kept_outline(m, leg);
  // Along its middle line a slot is nearest to an edge at one of its ends.
  for (const double off : {-hole.slot_mm / 2, hole.slot_mm / 2}) {
    const Vec2 end{at.x + off, at.y};
    if (auto problem = too_near_edge(build, kept, end, hole.diameter_mm, s.thickness_mm, "leg")) return problem;
  }
  for (const MemberHole& other : m.holes) {
    if (other.leg != leg) continue;
    const double reach = (hole.slot_mm + other.slot_mm) / 2;
    const Vec2 off{std::max(0.0, std::abs(at.x - other.along_mm) - reach), at.y - other.across_mm};
    const double apart = norm(off) - (hole.diameter_mm + other.diameter_mm) / 2;
    if (auto problem = too_near_hole(build, apart, s.thickness_mm, "the hole to " + other.purpose)) return problem;
  }
  m.holes.push_back({leg, at.x, at.y, hole.diameter_mm, hole.kind, hole.purpose, false, hole.slot_mm});
  return std::nullopt;
}

// Square through the flat of one wall of a tube, clear of that wall's other holes.
Problem hole_in_wall(const Build& build, Member& m, Leg leg, bool far, Vec2 at, const RoundHole& hole) {
  const Section& s = m.section;
  const double r = hole.diameter_mm / 2;
  const double width = leg == Leg::a ? s.leg_a_mm : s.leg_b_mm;
  const double flat = std::min(at.y, width - at.y) - r;
  if (flat < s.corner_radius_mm - tolerance::contact_mm)
    return "would run into the tube's rounded corner, which ends " + build.in_words(s.corner_radius_mm) +
           " from its side";
  const Loop kept = wall_outline(m, leg, far);
  if (auto problem = too_near_edge(build, kept, at, hole.diameter_mm, s.thickness_mm, "tube")) return problem;
  for (const MemberHole& other : m.holes) {
    if (other.leg != leg || other.far_wall != far) continue;
    const double apart = apart_mm(at, hole.diameter_mm, {other.along_mm, other.across_mm}, other.diameter_mm);
    if (auto problem = too_near_hole(build, apart, s.thickness_mm, "the hole to " + other.purpose)) return problem;
  }
  m.holes.push_back({leg, at.x, at.y, hole.diameter_mm, hole.kind, hole.purpose, far});
  return std::nullopt;
}

// Through the wall that the point is on, or nearest to.
Problem hole_in_tube(const Build& build, Member& m, Vec3 local, Vec3 direction, const RoundHole& hole) {
  const Section& s = m.section;
  if (parallel(direction, axis::y))
    return hole_in_wall(build, m, Leg::a, local.y > s.leg_b_mm / 2, {local.z, local.x}, hole);
  if (parallel(direction, axis::x))
    return hole_in_wall(build, m, Leg::b, local.x > s.leg_a_mm / 2, {local.z, local.y}, hole);
  return "does not go square through a wall";
}

Problem hole_in_member(const Build& build, Member& m, const Pose& pose, Vec3 local, Vec3 direction,
                       const RoundHole& hole) {
  const bool along = hole.slot_mm <= 0 || parallel(pose.inverse().turn(hole.slot_along), axis::z);
  if (!along || (hole.slot_mm > 0 && is_tube(m.section))) return "is a slot that does not run along a leg";
  if (is_tube(m.section)) return hole_in_tube(build, m, local, direction, hole);
  if (parallel(direction, axis::y)) return hole_in_leg(build, m, Leg::a, {local.z, local.x}, hole);
  if (parallel(direction, axis::x) && m.section.shape == SectionShape::angle) {
    return hole_in_leg(build, m, Leg::b, {local.z, local.y}, hole);
  }
  return "does not go square through a leg";
}

// Along a bent flange a slot runs as it does in the sheet.
Problem hole_in_bent_flange(const Build& build, Flat& flat, const Pose& pose, Vec2 at, const RoundHole& hole) {
  if (hole.slot_mm <= 0) return hole_in_flat(build, flat, at, hole);
  const Vec3 along = pose.inverse().turn(hole.slot_along);
  if (std::abs(along.z) > 0.5) return "is a slot across the bend";
  return slot_in_flat(build, flat, at, {along.x, along.y}, hole);
}

}  // namespace

double web_mm(double thickness_mm) { return std::min(thickness_mm, widest_web_mm); }

double cut_web_mm(const Build& build, double thickness_mm) {
  return std::max(web_mm(thickness_mm), build.spec.cutter.rules.smallest_web * thickness_mm);
}

double unasked_web_mm(const Build& build, double thickness_mm) {
  return std::max(cut_web_mm(build, thickness_mm), build.spec.cutter.rules.asked_below * thickness_mm);
}

std::optional<std::string> make_hole(Build& build, InstanceId id, const RoundHole& bare) {
  RoundHole hole = bare;
  if (hole.kind == HoleKind::clear && !hole.filled_before_coat) hole.diameter_mm += coat_in_hole_mm(build.spec);
  Part& part = build.draft.part(id);
  const Pose& pose = build.draft.pose(id);
  const Vec3 local = pose.local(hole.point);
  const Vec3 through = pose.inverse().turn(hole.direction);
  if (auto* member = std::get_if<Member>(&part.form)) return hole_in_member(build, *member, pose, local, through, hole);
  auto* flat = std::get_if<Flat>(&part.form);
  const auto in_flat = flat != nullptr ? in_pattern(*flat, local, through) : std::nullopt;
  if (!in_flat) return "does not go square through the part";
  if (auto problem = too_near_bend(build, *flat, *in_flat, hole.diameter_mm + hole.slot_mm)) return problem;
  if (!parallel(through, axis::z)) return hole_in_bent_flange(build, *flat, pose, *in_flat, hole);
  if (hole.slot_mm > 0) {
    const Vec3 along = pose.inverse().turn(hole.slot_along);
    return slot_in_flat(build, *flat, {local.x, local.y}, {along.x, along.y}, hole);
  }
  return hole_in_flat(build, *flat, {local.x, local.y}, hole);
}

bool is_said(const Build& build, std::string_view id, const Place& place, const std::string& words) {
  const auto& all = build.diagnostics.all();
  return std::any_of(all.begin(), all.end(), [&](const Diagnostic& d) {
    return d.id == id && d.place == place && d.message.find(words) != std::string::npos;
  });
}

void say_no_room(Build& build, const Place& place, double diameter_mm, const std::string& of, InstanceId in,
                 const std::string& problem, const std::string& remedy) {
  if (is_said(build, "no-room-for-hole", place, problem)) return;
  build.diagnostics.add(diag::say<"no-room-for-hole">(place, build.in_words(diameter_mm), of,
                                                      build.draft.instance(in).name, problem, remedy));
}

void clear_screw_tips(Build& build, InstanceId host, InstanceId laid_on, const std::string& remedy) {
  const Pose pose = build.draft.pose(laid_on);
  const Flat& flat = std::get<Flat>(build.draft.part(laid_on).form);
  const Box2 area = flat.profile.outer.bounds();
  for (const ScrewTip& tip : build.draft.screw_tips) {
    if (tip.into != host || std::abs(dot(tip.direction, pose.z())) < 0.5) continue;
    const Vec3 at = pose.local(tip.out_at);
    const Thread& thread = *tables::find_thread(tip.thread);
    const double reach = tip.hole_mm / 2;
    if (at.x < area.low.x - reach || at.x > area.high.x + reach || at.y < area.low.y - reach ||
        at.y > area.high.y + reach)
      continue;
    const auto problem = make_hole(
        build, laid_on, {tip.out_at, tip.direction, tip.hole_mm, HoleKind::clear, "the tip of " + thread.size});
    if (problem) {
      const bool nut = tip.hole_mm > thread.clear_medium_mm + tolerance::contact_mm;
      say_no_room(build, tip.place, tip.hole_mm, build.draft.instance(tip.screw).name, laid_on, *problem,
                  nut ? fmt::format("screws that are tapped in need a hole of {} only; else {}",
                                    build.in_words(thread.clear_medium_mm), remedy)
                      : remedy);
    } else {
      build.draft.join(tip.screw, laid_on, JointKind::slip, tip.direction);
    }
  }
}

std::vector<double> spread(double low, double high, double largest_step_mm) {
  if (high - low < tolerance::contact_mm) return {(low + high) / 2};
  const int steps = std::max(1, static_cast<int>(std::ceil((high - low) / largest_step_mm - tolerance::direction)));
  std::vector<double> out;
  for (int i = 0; i <= steps; ++i) out.push_back(low + (high - low) * i / steps);
  return out;
}

std::vector<double> spread_between(double low, double high, double largest_step_mm) {
  const auto all = spread(low, high, largest_step_mm);
  return all.size() < 3 ? std::vector<double>{} : std::vector<double>(all.begin() + 1, all.end() - 1);
}

}  // namespace fitup::plan

// Holes placed in the world, and screws with everything they pass.
// Entry: make_hole, add_screw, spread.
#include "plan/holes.h"

#include <algorithm>
#include <cassert>
#include <cmath>

#include <fmt/format.h>

#include "diag/catalogue.h"
#include "fitup/tolerances.h"
#include "geometry/region.h"
#include "plan/coat.h"
#include "plan/hardware.h"
#include "plan/patterns.h"
#include "plan/screw_fixing.h"

namespace fitup::plan {

namespace {

bool parallel(Vec3 a, Vec3 b) { return std::abs(std::abs(dot(a, b)) - 1) < tolerance::direction; }

using Problem = std::optional<std::string>;

constexpr double play_round_nut_mm = 1;  // of a hole that a nut stands in (common practice)

// Steel that must stay between a hole and an edge or another hole: as much as the sheet is thick, and no more than
// this is asked for (common practice of laser cutting, where narrower webs burn away).
constexpr double widest_web_mm = 3;
double web_mm(double thickness_mm) { return std::min(thickness_mm, widest_web_mm); }

// How far a point inside the loop stands from its outline; negative outside.
double depth_in_mm(const Loop& loop, Vec2 at) {
  const geometry::Region region(Profile{loop, {}});
  const double distance = region.distance_to_outline_mm(at);
  return region.contains(at) ? distance : -distance;
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
  const double least = *build.spec.cutter.smallest_hole * flat.thickness_mm;
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

Problem hole_in_flat(const Build& build, Flat& flat, Vec2 at, const RoundHole& hole) {
  const double t = flat.thickness_mm;
  if (auto problem = circle_in_flat(build, flat, at, hole)) return problem;
  // What is smaller than the cutter can cut is marked and drilled.
  const bool too_small = hole.diameter_mm < *build.spec.cutter.smallest_hole * t - tolerance::snap_mm;
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
  if (auto problem = too_near_edge(build, kept, at, hole.diameter_mm, s.thickness_mm, "leg")) return problem;
  for (const MemberHole& other : m.holes) {
    if (other.leg != leg) continue;
    const double apart = apart_mm(at, hole.diameter_mm, {other.along_mm, other.across_mm}, other.diameter_mm);
    if (auto problem = too_near_hole(build, apart, s.thickness_mm, "the hole to " + other.purpose)) return problem;
  }
  m.holes.push_back({leg, at.x, at.y, hole.diameter_mm, hole.kind, hole.purpose});
  return std::nullopt;
}

Problem hole_in_member(const Build& build, Member& m, Vec3 local, Vec3 direction, const RoundHole& hole) {
  if (parallel(direction, axis::y)) return hole_in_leg(build, m, Leg::a, {local.z, local.x}, hole);
  if (parallel(direction, axis::x) && m.section.shape == SectionShape::angle) {
    return hole_in_leg(build, m, Leg::b, {local.z, local.y}, hole);
  }
  return "does not go square through a leg";
}

}  // namespace

std::optional<std::string> make_hole(Build& build, InstanceId id, const RoundHole& bare) {
  RoundHole hole = bare;
  if (hole.kind == HoleKind::clear && !hole.filled_before_coat) hole.diameter_mm += coat_in_hole_mm(build.spec);
  Part& part = build.draft.part(id);
  const Pose& pose = build.draft.pose(id);
  const Vec3 local = pose.local(hole.point);
  const Vec3 through = pose.inverse().turn(hole.direction);
  if (auto* member = std::get_if<Member>(&part.form)) return hole_in_member(build, *member, local, through, hole);
  auto* flat = std::get_if<Flat>(&part.form);
  if (flat == nullptr || !parallel(through, axis::z)) return "does not go square through the part";
  if (hole.slot_mm > 0) {
    const Vec3 along = pose.inverse().turn(hole.slot_along);
    return slot_in_flat(build, *flat, {local.x, local.y}, {along.x, along.y}, hole);
  }
  return hole_in_flat(build, *flat, {local.x, local.y}, hole);
}

namespace {

// A row of holes that cannot be says so once: the same words of the same place are one cause.
bool is_said(const Build& build, std::string_view id, const Place& place, const std::string& words) {
  const auto& all = build.diagnostics.all();
  return std::any_of(all.begin(), all.end(), [&](const Diagnostic& d) {
    return d.id == id && d.place == place && d.message.find(words) != std::string::npos;
  });
}

// Makes the hole, or says why not.
bool room_for(Build& build, const ScrewPlace& place, InstanceId id, const RoundHole& hole) {
  const auto problem = make_hole(build, id, hole);
  if (problem) say_no_room(build, place.origin.place, hole.diameter_mm, place.name, id, *problem);
  return !problem;
}

// Holes in every layer; false if one cannot be made.
bool make_screw_holes(Build& build, const ScrewPlace& place, const Thread& thread, const ScrewHold& hold) {
  for (std::size_t i = 0; i < place.layers.size(); ++i) {
    const Layer& layer = place.layers[i];
    const bool last = i + 1 == place.layers.size();
    RoundHole hole{place.seat + layer.from_mm * place.direction, place.direction,
                   last ? hold.hole_mm : thread.clear_medium_mm, last ? hold.hole : HoleKind::clear,
                   last ? hold.purpose : "clear " + thread.size, last && place.fixing == ScrewFixing::weld_nut};
    if (i == 0 && !last) {
      hole.slot_mm = place.slot_mm;
      hole.slot_along = place.slot_along;
    }
    if (!room_for(build, place, layer.instance, hole)) return false;
  }
  return true;
}

// What a screw may draw together. Plies may differ by 2 mm and gaps of up to 4 mm may be left at a connection's edges
// (EN 1090-2, 8.1 and 8.3, from memory); taken over for a cover's flange as common practice.
constexpr double most_drawn_mm = 4;

// Not to what it is threaded into. On a slot the head bears on a washer.
void join_screw(Build& build, const ScrewPlace& place, InstanceId screw) {
  Draft& draft = build.draft;
  const auto& layers = place.layers;
  const bool on_washer = place.slot_mm > 0;
  if (on_washer) add_head_washer(build, place, screw, layers.front().instance);
  if (layers.size() > 1 || place.fixing == ScrewFixing::tapped) {
    draft.join(screw, layers.front().instance, on_washer ? JointKind::slip : JointKind::bearing, place.direction);
  }
  for (std::size_t i = 0; i + 1 < layers.size(); ++i) {
    if (i > 0) draft.join(screw, layers[i].instance, JointKind::slip, place.direction);
    draft.join(layers[i].instance, layers[i + 1].instance, JointKind::bolted, place.direction, most_drawn_mm);
  }
}

}  // namespace

void say_no_room(Build& build, const Place& place, double diameter_mm, const std::string& of, InstanceId in,
                 const std::string& problem) {
  if (is_said(build, "no-room-for-hole", place, problem)) return;
  build.diagnostics.add(
      diag::say<"no-room-for-hole">(place, build.in_words(diameter_mm), of, build.draft.instance(in).name, problem));
}

namespace {

// In steel, one diameter of thread.
bool threads_enough(Build& build, const ScrewPlace& place, const Thread& thread, double engagement) {
  if (engagement >= thread.major_mm - tolerance::contact_mm) return true;
  const std::string thick = build.in_words(engagement) + " thick";
  if (is_said(build, "thread-too-short", place.thread_place, thick)) return false;
  const std::string others =
      place.fixing_key.empty()
          ? std::string()
          : fmt::format(", or {} = \"nut\", \"locknut\", \"weld nut\" or \"insert\"", place.fixing_key);
  build.diagnostics.add(
      diag::say<"thread-too-short">(place.thread_place, build.draft.instance(place.layers.back().instance).name,
                                    build.in_words(engagement), thread.size, build.in_words(thread.major_mm), others));
  return false;
}

void say_no_hold(Build& build, const ScrewPlace& place, const ScrewHold& hold, const std::string& problem) {
  if (is_said(build, "no-room-for-fixing", place.thread_place, problem)) return;
  build.diagnostics.add(diag::say<"no-room-for-fixing">(place.thread_place, hold.noun, place.thread, place.name,
                                                        build.draft.instance(place.layers.back().instance).name,
                                                        problem, place.fixing_key));
}

// A seat for it, and nothing welded on there.
bool holds(Build& build, const ScrewPlace& place, const ScrewHold& hold) {
  const Layer& last = place.layers.back();
  const Vec3 back = place.seat + last.to_mm * place.direction;
  auto problem = hold_problem(build, hold, last.instance, back, place.direction, last.to_mm - last.from_mm);
  if (!problem && place.behind && hold.behind_mm > 0) {
    problem = fmt::format("would stand in {}", build.draft.instance(*place.behind).name);
  }
  if (problem) say_no_hold(build, place, hold, *problem);
  return !problem;
}

void add_fastener(Build& build, const ScrewPlace& place, InstanceId screw, InstanceId into, double engagement) {
  Fastener fastener{place.thread, screw, {}, engagement, 0};
  for (std::size_t i = 0; i < place.layers.size(); ++i) {
    fastener.stack.push_back(place.layers[i].instance);
    if (i > 0) fastener.draws_mm += place.layers[i].from_mm - place.layers[i - 1].to_mm;
  }
  if (into != fastener.stack.back()) fastener.stack.push_back(into);
  build.draft.fasteners.push_back(std::move(fastener));
}

// What lies behind gets a hole where the tip comes through, and is known to what is laid on there later.
void pass_tip(Build& build, const ScrewPlace& place, const Thread& thread, const ScrewHold& hold, InstanceId screw,
              double length) {
  const Layer& last = place.layers.back();
  const Vec3 back = place.seat + last.to_mm * place.direction;
  if (place.behind && length > last.to_mm + tolerance::contact_mm) {
    const RoundHole hole{back, place.direction, thread.clear_medium_mm, HoleKind::clear, "the tip of " + thread.size};
    if (!room_for(build, place, *place.behind, hole)) return;
    build.draft.join(screw, *place.behind, JointKind::slip, place.direction);
  }
  if (length > last.to_mm - tolerance::contact_mm) {
    const double play = hold.behind_mm > 0 ? play_round_nut_mm : 0;
    build.draft.screw_tips.push_back({screw, last.instance, back, place.direction, place.thread, place.origin.place,
                                      std::max(thread.clear_medium_mm, hold.across_mm + play)});
  }
}

}  // namespace

double slot_mm_of(const Sourced<HoleShape>& hole, const std::optional<Sourced<Length>>& slot,
                  const std::string& thread) {
  if (*hole == HoleShape::round) return 0;
  return slot ? (*slot)->mm() : tables::find_thread(thread)->major_mm;
}

void add_screw(Build& build, const ScrewPlace& wanted) {
  const Thread& thread = *tables::find_thread(wanted.thread);
  const ButtonHead& head = *tables::find_button_head(wanted.thread);
  ScrewPlace place = wanted;
  if (place.slot_mm > 0) {
    const double washer = tables::find_washer(place.thread)->thickness_mm;
    place.seat = place.seat - washer * place.direction;
    for (Layer& layer : place.layers) layer = {layer.instance, layer.from_mm + washer, layer.to_mm + washer};
  }
  const Layer last = place.layers.back();
  const auto hold = hold_of(place.fixing, thread, last.to_mm - last.from_mm);
  if (!hold) {
    if (!is_said(build, "fixing-not-made", place.thread_place, place.fixing_key)) {
      build.diagnostics.add(diag::say<"fixing-not-made">(place.thread_place, place.fixing_key, place.thread));
    }
    return;
  }
  if (place.fixing == ScrewFixing::tapped && !threads_enough(build, place, thread, hold->engagement_mm)) return;
  if (!holds(build, place, *hold)) return;
  const double length = screw_length_mm(thread, last.to_mm + hold->screw_to_mm);
  if (length <= 0) {
    say_no_hold(build, place, *hold, "asks for a screw longer than any that is kept");
    return;
  }
  if (!make_screw_holes(build, place, thread, *hold)) return;
  const InstanceId screw = build.draft.add(button_head_screw(thread, head, length), along(place.seat, place.direction),
                                           place.name, place.origin);
  join_screw(build, place, screw);
  const InstanceId into = add_hold(build, *hold, place, screw);
  pass_tip(build, place, thread, *hold, screw, length);
  add_fastener(build, place, screw, into, hold->engagement_mm);
  note_screw(build, place, *hold, screw);
}

void clear_screw_tips(Build& build, InstanceId host, InstanceId laid_on) {
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
      say_no_room(build, tip.place, tip.hole_mm, build.draft.instance(tip.screw).name, laid_on, *problem);
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

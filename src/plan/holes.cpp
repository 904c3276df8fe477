// Holes placed in the world, and screws with everything they pass.
// Entry: make_hole, add_screw, spread.
#include "plan/holes.h"

#include <algorithm>
#include <cassert>
#include <cmath>

#include <fmt/format.h>

#include "diag/catalogue.h"
#include "fitup/tolerances.h"
#include "plan/hardware.h"

namespace fitup::plan {

namespace {

bool parallel(Vec3 a, Vec3 b) { return std::abs(std::abs(dot(a, b)) - 1) < tolerance::direction; }

using Problem = std::optional<std::string>;

// Steel that stays between two holes, or the holes are one.
bool meet(Vec2 a, double diameter_a, Vec2 b, double diameter_b) {
  return norm(a - b) < (diameter_a + diameter_b) / 2 + tolerance::contact_mm;
}

Problem hole_in_flat(Flat& flat, const CutterSpec& cutter, Vec2 at, const RoundHole& hole) {
  const Box2 b = flat.profile.bounds();
  const double r = hole.diameter_mm / 2;
  if (at.x - r < b.low.x || at.x + r > b.high.x || at.y - r < b.low.y || at.y + r > b.high.y) {
    return "would leave the plate";
  }
  for (const DrilledHole& d : flat.drilled) {
    if (meet(at, hole.diameter_mm, d.at, d.diameter_mm)) return "would run into the hole to " + d.purpose;
  }
  for (const Loop& h : flat.profile.holes) {
    const auto c = h.as_circle();
    if (c && meet(at, hole.diameter_mm, c->centre, 2 * c->radius)) return "would run into another hole";
  }
  // What is smaller than the cutter can cut is marked and drilled.
  const bool too_small = hole.diameter_mm < *cutter.smallest_hole * flat.thickness_mm - tolerance::snap_mm;
  if (too_small || hole.kind == HoleKind::tapped) {
    flat.drilled.push_back({at, hole.diameter_mm, hole.purpose});
  } else {
    flat.profile.holes.push_back(Loop::circle(at, r));
  }
  return std::nullopt;
}

// Square through a leg of even thickness: clear of root and toe, inside the leg. Two holes of a leg may meet:
// what stands in them then shares volume, and the overlap check says so.
Problem hole_in_leg(const Build& build, Member& m, Leg leg, Vec2 at, const RoundHole& hole) {
  const Section& s = m.section;
  const double r = hole.diameter_mm / 2;
  const double root = s.shape == SectionShape::angle ? s.thickness_mm + s.root_radius_mm : 0;
  const double width = leg == Leg::a ? s.leg_a_mm : s.leg_b_mm;
  if (at.y - r < root - tolerance::contact_mm)
    return "would run into the root, which ends " + build.in_words(root) + " from the heel";
  if (at.y + r > width - s.toe_radius_mm + tolerance::contact_mm && at.y + r <= width)
    return "would run into the toe's rounding";
  if (at.y + r > width || at.x - r < 0 || at.x + r > m.length_mm) return "would leave the leg";
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

std::optional<std::string> make_hole(Build& build, InstanceId id, const RoundHole& hole) {
  Part& part = build.draft.part(id);
  const Pose& pose = build.draft.pose(id);
  const Vec3 local = pose.local(hole.point);
  const Vec3 through = pose.inverse().turn(hole.direction);
  if (auto* member = std::get_if<Member>(&part.form)) return hole_in_member(build, *member, local, through, hole);
  auto* flat = std::get_if<Flat>(&part.form);
  if (flat == nullptr || !parallel(through, axis::z)) return "does not go square through the part";
  return hole_in_flat(*flat, build.spec.cutter, {local.x, local.y}, hole);
}

namespace {

// Makes the hole, or says why not.
bool room_for(Build& build, const ScrewPlace& place, InstanceId id, const RoundHole& hole) {
  const auto problem = make_hole(build, id, hole);
  if (problem) {
    build.diagnostics.add(diag::say<"no-room-for-hole">(place.origin.place, build.in_words(hole.diameter_mm),
                                                        place.name, build.draft.instance(id).name, *problem));
  }
  return !problem;
}

// Holes in every layer; false if one cannot be made.
bool make_screw_holes(Build& build, const ScrewPlace& place, const Thread& thread) {
  for (std::size_t i = 0; i < place.layers.size(); ++i) {
    const Layer& layer = place.layers[i];
    const bool last = i + 1 == place.layers.size();
    const RoundHole hole{place.seat + layer.from_mm * place.direction, place.direction,
                         last ? thread.tap_drill_mm : thread.clear_medium_mm, last ? HoleKind::tapped : HoleKind::clear,
                         (last ? "tap " : "clear ") + thread.size};
    if (!room_for(build, place, layer.instance, hole)) return false;
  }
  return true;
}

void join_screw(Build& build, const ScrewPlace& place, const Thread& thread, InstanceId screw) {
  Draft& draft = build.draft;
  const auto& layers = place.layers;
  draft.join(screw, layers.front().instance, JointKind::bearing, place.direction);
  for (std::size_t i = 0; i + 1 < layers.size(); ++i) {
    if (i > 0) draft.join(screw, layers[i].instance, JointKind::slip, place.direction);
    draft.join(layers[i].instance, layers[i + 1].instance, JointKind::bolted, place.direction,
               layers[i + 1].from_mm - layers[i].to_mm);
  }
  draft.join(screw, layers.back().instance, JointKind::thread, place.direction, 0, thread.major_mm);
}

}  // namespace

void add_screw(Build& build, const ScrewPlace& place) {
  const Thread* thread = tables::find_thread(place.thread);
  const ButtonHead* head = tables::find_button_head(place.thread);
  const Layer& last = place.layers.back();
  const double engagement = last.to_mm - last.from_mm;
  const double length = screw_length_mm(last.to_mm);
  // The reader takes no other thread, and no sheet, gap and section that together are longer than every screw.
  assert(thread != nullptr && head != nullptr && length > 0);
  if (engagement < thread->major_mm - tolerance::contact_mm) {
    build.diagnostics.add(diag::say<"thread-too-short">(place.thread_place, build.draft.instance(last.instance).name,
                                                        build.in_words(engagement), thread->size,
                                                        build.in_words(thread->major_mm)));
    return;
  }
  if (!make_screw_holes(build, place, *thread)) return;
  const InstanceId screw = build.draft.add(button_head_screw(*thread, *head, length),
                                           along(place.seat, place.direction), place.name, place.origin);
  join_screw(build, place, *thread, screw);
  if (place.behind && length > last.to_mm + tolerance::contact_mm) {
    const RoundHole hole{place.seat + last.to_mm * place.direction, place.direction, thread->clear_medium_mm,
                         HoleKind::clear, "the tip of " + thread->size};
    if (!room_for(build, place, *place.behind, hole)) return;
    build.draft.join(screw, *place.behind, JointKind::slip, place.direction);
  }
  Fastener fastener{thread->size, screw, {}, engagement, 0};
  for (std::size_t i = 0; i < place.layers.size(); ++i) {
    fastener.stack.push_back(place.layers[i].instance);
    if (i > 0) fastener.draws_mm += place.layers[i].from_mm - place.layers[i - 1].to_mm;
  }
  build.draft.fasteners.push_back(std::move(fastener));
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

// Holes placed in the world, and screws with everything they pass.
// Entry: make_hole, add_screw, spread.
#include "plan/holes.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "diag/catalogue.h"
#include "fitup/tolerances.h"
#include "plan/hardware.h"

namespace fitup::plan {

namespace {

bool parallel(Vec3 a, Vec3 b) { return std::abs(std::abs(dot(a, b)) - 1) < tolerance::direction; }

bool hole_in_flat(Flat& flat, const CutterSpec& cutter, Vec3 local, double diameter, HoleKind kind,
                  const std::string& purpose) {
  const Vec2 at{local.x, local.y};
  const Box2 b = flat.profile.bounds();
  if (at.x < b.low.x || at.x > b.high.x || at.y < b.low.y || at.y > b.high.y) return false;
  // What is smaller than the cutter can cut is marked and drilled.
  const bool drilled = diameter < *cutter.smallest_hole * flat.thickness_mm - tolerance::snap_mm;
  if (drilled || kind == HoleKind::tapped) {
    flat.drilled.push_back({at, diameter, purpose});
  } else {
    flat.profile.holes.push_back(Loop::circle(at, diameter / 2));
  }
  return true;
}

bool hole_in_member(Member& m, Vec3 local, Vec3 direction, double diameter, HoleKind kind, const std::string& purpose) {
  const bool leg_a = parallel(direction, axis::y);
  if (!leg_a && (!parallel(direction, axis::x) || m.section.shape == SectionShape::flat)) return false;
  const double across = leg_a ? local.x : local.y;
  const double width = leg_a ? m.section.leg_a_mm : m.section.leg_b_mm;
  // Square through a leg of even thickness: clear of the root, inside the leg.
  const double root = m.section.shape == SectionShape::angle ? m.section.thickness_mm + m.section.root_radius_mm : 0;
  const double r = diameter / 2;
  if (across - r < root - tolerance::contact_mm || across + r > width || local.z - r < 0 || local.z + r > m.length_mm) {
    return false;
  }
  m.holes.push_back({leg_a ? Leg::a : Leg::b, local.z, across, diameter, kind, purpose});
  return true;
}

}  // namespace

bool make_hole(Build& build, InstanceId id, Vec3 point, Vec3 direction, double diameter_mm, HoleKind kind,
               const std::string& purpose) {
  Part& part = build.draft.part(id);
  const Pose& pose = build.draft.pose(id);
  const Vec3 local = pose.local(point);
  const Vec3 through = pose.inverse().turn(direction);
  if (auto* flat = std::get_if<Flat>(&part.form)) {
    return parallel(through, axis::z) && hole_in_flat(*flat, build.spec.cutter, local, diameter_mm, kind, purpose);
  }
  if (auto* member = std::get_if<Member>(&part.form)) {
    return hole_in_member(*member, local, through, diameter_mm, kind, purpose);
  }
  return false;
}

namespace {

void say_no_hole(Build& build, const ScrewPlace& place, InstanceId id, double diameter) {
  build.diagnostics.add(diag::say<"no-room-for-hole">(place.origin.place, diameter, place.name,
                                                      build.draft.instance(id).name));
}

// Holes in every layer; false if one cannot be made.
bool make_screw_holes(Build& build, const ScrewPlace& place, const Thread& thread) {
  for (std::size_t i = 0; i < place.layers.size(); ++i) {
    const Layer& layer = place.layers[i];
    const bool last = i + 1 == place.layers.size();
    const double diameter = last ? thread.tap_drill_mm : thread.clear_medium_mm;
    const std::string purpose = (last ? "tap " : "clear ") + thread.size;
    if (!make_hole(build, layer.instance, place.seat + layer.from_mm * place.direction, place.direction, diameter,
                   last ? HoleKind::tapped : HoleKind::clear, purpose)) {
      say_no_hole(build, place, layer.instance, diameter);
      return false;
    }
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
  if (thread == nullptr || head == nullptr || length == 0) {
    build.diagnostics.add(diag::say<"no-such-screw">(place.thread_place, place.thread, last.to_mm));
    return;
  }
  if (engagement < thread->major_mm - tolerance::contact_mm) {
    build.diagnostics.add(diag::say<"thread-too-short">(place.thread_place, build.draft.instance(last.instance).name,
                                                        engagement, thread->size, thread->major_mm));
    return;
  }
  if (!make_screw_holes(build, place, *thread)) return;
  const InstanceId screw = build.draft.add(button_head_screw(*thread, *head, length), along(place.seat, place.direction),
                                           place.name, place.origin);
  join_screw(build, place, *thread, screw);
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

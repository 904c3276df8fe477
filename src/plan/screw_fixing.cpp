// Nuts with their washers, weld nuts and rivet nuts behind what a screw passes.
// Entry: hold_of, hold_problem, add_hold.
#include "plan/screw_fixing.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "diag/catalogue.h"
#include "fitup/tolerances.h"
#include "geometry/region.h"
#include "plan/hardware.h"
#include "plan/nut_strip.h"
#include "plan/tube.h"

namespace fitup::plan {

namespace {

constexpr double two_threads = 2;        // a screw shows two threads beyond its nut
constexpr double play_round_nut_mm = 1;  // of a hole that a nut stands in (common practice)

double corners_mm(double across_flats_mm) { return across_flats_mm * 2 / std::sqrt(3.0); }

ScrewHold tapped_hold(const Thread& thread, double last_mm) {
  return {.fixing = ScrewFixing::tapped,
          .hole_mm = thread.tap_drill_mm,
          .hole = HoleKind::tapped,
          .purpose = "tap " + thread.size,
          .noun = "a thread",
          .across_mm = thread.clear_medium_mm,
          .engagement_mm = last_mm};
}

std::optional<ScrewHold> nut_hold(ScrewFixing fixing, const Thread& thread) {
  const Washer* washer = tables::find_washer(thread.size);
  const HexNut* nut = tables::find_nut(thread.size);
  const LockNut* lock = tables::find_lock_nut(thread.size);
  const bool locks = fixing == ScrewFixing::locknut;
  if (washer == nullptr || nut == nullptr || (locks && lock == nullptr)) return std::nullopt;
  const double height = locks ? lock->height_mm : nut->height_mm;
  const double flats = locks ? lock->across_flats_mm : nut->across_flats_mm;
  const double to = washer->thickness_mm + height + two_threads * thread.pitch_mm;
  return ScrewHold{.fixing = fixing,
                   .hole_mm = thread.clear_medium_mm,
                   .purpose = "clear " + thread.size,
                   .noun = locks ? "a locknut" : "a nut",
                   .behind_mm = washer->thickness_mm + height,
                   .seat_mm = washer->outer_mm,
                   .across_mm = std::max(washer->outer_mm, corners_mm(flats)),
                   .screw_to_mm = to,
                   .engagement_mm = height};
}

std::optional<ScrewHold> weld_nut_hold(const Thread& thread) {
  const WeldNut* nut = tables::find_weld_nut(thread.size);
  if (nut == nullptr) return std::nullopt;
  const double across = corners_mm(nut->across_flats_mm);
  return ScrewHold{.fixing = ScrewFixing::weld_nut,
                   .hole_mm = nut->hole_mm,
                   .purpose = "weld nut " + thread.size,
                   .noun = "a weld nut",
                   .behind_mm = nut->height_mm,
                   .seat_mm = across,
                   .across_mm = across,
                   .screw_to_mm = nut->height_mm + two_threads * thread.pitch_mm,
                   .engagement_mm = nut->height_mm};
}

std::optional<ScrewHold> insert_hold(const Thread& thread) {
  const RivetNut* nut = tables::find_rivet_nut(thread.size);
  if (nut == nullptr) return std::nullopt;
  return ScrewHold{.fixing = ScrewFixing::insert,
                   .hole_mm = nut->hole_mm,
                   .purpose = "rivet nut " + thread.size,
                   .noun = "a rivet nut",
                   .behind_mm = nut->behind_mm,
                   .seat_mm = nut->bulge_mm,
                   .across_mm = nut->bulge_mm,
                   .screw_to_mm = nut->behind_mm,
                   .engagement_mm = thread.major_mm};
}

}  // namespace

std::optional<ScrewHold> hold_of(ScrewFixing fixing, const Thread& thread, double last_mm) {
  switch (fixing) {
    case ScrewFixing::tapped: return tapped_hold(thread, last_mm);
    case ScrewFixing::nut:
    case ScrewFixing::locknut: return nut_hold(fixing, thread);
    case ScrewFixing::weld_nut: return weld_nut_hold(thread);
    case ScrewFixing::insert: return insert_hold(thread);
    case ScrewFixing::nut_strip: break;
  }
  return std::nullopt;
}

double hole_behind_mm(const Thread& thread, const ScrewHold& hold) {
  const double play = hold.behind_mm > 0 ? play_round_nut_mm : 0;
  return std::max(thread.clear_medium_mm, hold.across_mm + play);
}

double screw_reach_mm(const RodPlatesSpec& plates, const Host& upright) {
  // What comes out of a tube's wall stays inside of it.
  if (upright.wall_mm > 0) return 0;
  const double upright_mm = upright.box.size().x;
  const Thread& thread = *tables::find_thread(*plates.screw);
  const auto hold = hold_of(*plates.screw_fixing, thread, upright_mm);
  if (!hold) return 0;
  const bool slot = *plates.screw_hole == HoleShape::slot;
  const double washer = slot ? tables::find_washer(*plates.screw)->thickness_mm : 0;
  const double grip = washer + plates.thickness->mm() + plates.gap->mm() + upright_mm;
  return std::max(hold->behind_mm, screw_length_mm(thread, grip + hold->screw_to_mm) - grip);
}

void say_gap_too_small(Build& build, const RodPlatesSpec& plates, const Host& upright, Face face) {
  const Thread& thread = *tables::find_thread(*plates.screw);
  const double thick = upright.box.size().x;
  const Sourced<Length>& gap = build.box_spec().face(face).gap;
  const auto reach_mm = [&](ScrewFixing fixing) {
    RodPlatesSpec with = plates;
    with.screw_fixing.value = fixing;
    return screw_reach_mm(with, upright);
  };
  const auto needed = [&](ScrewFixing fixing) { return build.at_least(reach_mm(fixing) + tip_air_mm); };
  const ScrewFixing now = *plates.screw_fixing;
  const bool holds = holds_thread_itself(thread, *tables::find_material(material_of(build)), thick);
  const std::string word(to_text(face));
  if (now != ScrewFixing::tapped && holds && reach_mm(ScrewFixing::tapped) + tip_air_mm <= gap->mm()) {
    build.diagnostics.add(diag::say<"gap-too-small">(gap.place, thread.size, word, build.in_words(reach_mm(now)), word,
                                                     build.in_words(gap->mm()), needed(now)));
    return;
  }
  // A larger gap, and where the upright holds no thread another fixing first.
  const bool other = now == ScrewFixing::tapped && !holds;
  const bool weld_nut = hold_of(ScrewFixing::weld_nut, thread, thick).has_value();
  const ScrewFixing then = !other ? now : weld_nut ? ScrewFixing::weld_nut : ScrewFixing::nut;
  const std::string fixing =
      other ? fmt::format("a thread does not hold in an upright {} thick besides: set {} to \"{}\" and ",
                          build.in_words(thick), build.key("rod_plates.screw_fixing"), weld_nut ? "weld nut" : "nut")
            : "";
  const auto hold = hold_of(now, thread, thick);
  build.diagnostics.add(diag::say<"no-room-for-fixing">(
      gap.place, now == ScrewFixing::tapped || !hold ? "a tip" : hold->noun, thread.size,
      fmt::format("the screws of the {} rod plate", word), "the uprights",
      fmt::format("stands {} out of them under the {} cover's flange, where the gap is {}",
                  build.in_words(reach_mm(now)), word, build.in_words(gap->mm())),
      fmt::format("{}make {} at least {}", fixing, build.key("face." + word + ".gap"), needed(then))));
}

void hold_as_said(const Build& build, const RodPlatesSpec& plates, ScrewPlace& place) {
  place.fixing = *plates.screw_fixing;
  place.fixing_key = build.key("rod_plates.screw_fixing");
  place.slot_mm = slot_mm_of(build, plates.screw_hole, plates.screw_slot, axis::y);
  place.slot_along = axis::y;
}

namespace {

// Inside a closed tube nothing is held but what comes through the hole, and only as far as the wall opposite.
std::optional<std::string> off_wall(const Build& build, const ScrewHold& hold, const Section& s, Vec3 through) {
  if (hold.fixing != ScrewFixing::insert)
    return "cannot be put into a closed tube, in whose wall a thread or a rivet nut (\"insert\") holds";
  const double hollow = (std::abs(through.y) > 0.5 ? s.leg_b_mm : s.leg_a_mm) - 2 * s.thickness_mm;
  if (hold.behind_mm <= hollow - tolerance::contact_mm) return std::nullopt;
  return fmt::format("stands {} behind the wall of a tube that is {} wide inside", build.in_words(hold.behind_mm),
                     build.in_words(hollow));
}

// The seat on a leg's inner face: between its root and its toe.
std::optional<std::string> off_leg(const Build& build, const ScrewHold& hold, const Member& m, Vec3 local,
                                   Vec3 through) {
  const Section& s = m.section;
  if (is_tube(s)) return off_wall(build, hold, s, through);
  const bool on_a = std::abs(through.y) > 0.5;
  const double across = on_a ? local.x : local.y;
  const double width = on_a ? s.leg_a_mm : s.leg_b_mm;
  const double root = s.shape == SectionShape::angle ? s.thickness_mm + s.root_radius_mm : 0;
  const double needed = hold.seat_mm / 2;
  if (across - needed < root - tolerance::contact_mm) {
    return fmt::format("needs a flat seat {} wide, and {} from the screw to the {} is all there is",
                       build.in_words(hold.seat_mm), build.in_words(std::max(0.0, across - root)),
                       root > 0 ? "root" : "edge");
  }
  if (across + needed > width + tolerance::contact_mm) {
    return fmt::format("needs a flat seat {} wide, and {} from the screw to the edge is all there is",
                       build.in_words(hold.seat_mm), build.in_words(width - across));
  }
  return std::nullopt;
}

std::optional<std::string> off_plate(const Build& build, const ScrewHold& hold, const Flat& flat, Vec3 local) {
  const geometry::Region region(Profile{flat.profile.outer, {}});
  const double edge = region.distance_to_outline_mm({local.x, local.y});
  if (edge >= hold.seat_mm / 2 - tolerance::contact_mm) return std::nullopt;
  return fmt::format("needs a flat seat {} wide, and {} from the screw to the edge is all there is",
                     build.in_words(hold.seat_mm), build.in_words(edge));
}

// What is not known, as an item's case is not, is taken to be.
bool is_of_steel(const Part& part) {
  const Material* material = tables::find_material(part.material);
  return material == nullptr || material->steel;
}

}  // namespace

std::optional<std::string> hold_problem(const Build& build, const ScrewHold& hold, InstanceId host, Vec3 back,
                                        Vec3 direction, double last_mm) {
  if (hold.fixing == ScrewFixing::tapped) return std::nullopt;
  if (hold.fixing == ScrewFixing::weld_nut && !is_of_steel(build.draft.part(host))) {
    return "is of steel, which is not welded to " + build.draft.part(host).material;
  }
  if (hold.fixing == ScrewFixing::insert) {
    const std::string size = hold.purpose.substr(hold.purpose.rfind(' ') + 1);
    const RivetNut& nut = *tables::find_rivet_nut(size);
    if (last_mm < nut.least_grip_mm - tolerance::contact_mm || last_mm > nut.most_grip_mm + tolerance::contact_mm) {
      return fmt::format("holds in {} to {} (common practice), not in {}", build.in_words(nut.least_grip_mm),
                         build.in_words(nut.most_grip_mm), build.in_words(last_mm));
    }
  }
  const Pose& pose = build.draft.pose(host);
  const Vec3 local = pose.local(back);
  const Part& part = build.draft.part(host);
  if (const auto* flat = std::get_if<Flat>(&part.form)) return off_plate(build, hold, *flat, local);
  const auto* member = std::get_if<Member>(&part.form);
  if (member == nullptr) return "needs a plate or a leg to stand on";
  return off_leg(build, hold, *member, local, pose.inverse().turn(direction));
}

namespace {

InstanceId add_nut(Build& build, const ScrewHold& hold, const ScrewPlace& place, InstanceId screw, const Thread& thread,
                   Vec3 back) {
  Draft& draft = build.draft;
  const Washer& washer = *tables::find_washer(place.thread);
  const InstanceId host = place.layers.back().instance;
  const InstanceId w = draft.add(plain_washer(washer), along(back, place.direction),
                                 draft.instance(screw).name + " washer", place.origin);
  const Part part = hold.fixing == ScrewFixing::locknut ? lock_nut(thread, *tables::find_lock_nut(place.thread))
                                                        : hex_nut(thread, *tables::find_nut(place.thread));
  const Vec3 seat = back + washer.thickness_mm * place.direction;
  const InstanceId n = draft.add(part, along(seat, place.direction), draft.instance(screw).name + " nut", place.origin);
  const Vec3 up = Vec3{} - place.direction;
  draft.join(w, host, JointKind::bearing, up);
  draft.join(screw, w, JointKind::slip, place.direction);
  draft.join(n, w, JointKind::bearing, up);
  return n;
}

InstanceId add_weld_nut(Build& build, const ScrewPlace& place, InstanceId screw, const Thread& thread, Vec3 back) {
  const WeldNut& nut = *tables::find_weld_nut(place.thread);
  const InstanceId host = place.layers.back().instance;
  // It is part of what it is welded to.
  const Origin origin{place.origin.key, place.origin.place, build.draft.instance(host).group};
  const InstanceId n = build.draft.add(weld_nut(thread, nut), along(back, place.direction),
                                       build.draft.instance(screw).name + " weld nut", origin);
  build.draft.join(n, host, JointKind::weld, Vec3{} - place.direction);
  return n;
}

InstanceId add_insert(Build& build, const ScrewPlace& place, InstanceId screw, const Thread& thread, Vec3 back) {
  const RivetNut& nut = *tables::find_rivet_nut(place.thread);
  const Layer& last = place.layers.back();
  const Origin origin{place.origin.key, place.origin.place, build.draft.instance(last.instance).group};
  const InstanceId n = build.draft.add(rivet_nut(thread, nut, last.to_mm - last.from_mm), along(back, place.direction),
                                       build.draft.instance(screw).name + " rivet nut", origin);
  build.draft.join(n, last.instance, JointKind::bearing, Vec3{} - place.direction);
  // Level with the sheet it is set in, it may touch what is screwed on.
  if (place.layers.size() > 1) {
    const Layer& before = place.layers[place.layers.size() - 2];
    build.draft.join(before.instance, n, JointKind::slip, place.direction);
  }
  return n;
}

}  // namespace

InstanceId add_hold(Build& build, const ScrewHold& hold, const ScrewPlace& place, InstanceId screw) {
  const Thread& thread = *tables::find_thread(place.thread);
  const Layer& last = place.layers.back();
  const Vec3 back = place.seat + last.to_mm * place.direction;
  InstanceId into = last.instance;
  switch (hold.fixing) {
    case ScrewFixing::tapped: break;
    case ScrewFixing::nut:
    case ScrewFixing::locknut: into = add_nut(build, hold, place, screw, thread, back); break;
    case ScrewFixing::weld_nut: into = add_weld_nut(build, place, screw, thread, back); break;
    case ScrewFixing::insert: into = add_insert(build, place, screw, thread, back); break;
    case ScrewFixing::nut_strip: build.draft.join(screw, into, JointKind::slip, place.direction); return into;
  }
  build.draft.join(screw, into, JointKind::thread, place.direction, 0, thread.major_mm);
  if (into != last.instance) build.draft.join(screw, last.instance, JointKind::slip, place.direction);
  return into;
}

void add_head_washer(Build& build, const ScrewPlace& place, InstanceId screw, InstanceId under) {
  const Washer& washer = *tables::find_washer(place.thread);
  const InstanceId w = build.draft.add(plain_washer(washer), along(place.seat, place.direction),
                                       build.draft.instance(screw).name + " head washer", place.origin);
  build.draft.join(w, under, JointKind::bearing, place.direction);
  build.draft.join(screw, w, JointKind::bearing, place.direction);
}

}  // namespace fitup::plan

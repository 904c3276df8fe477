// Screws with everything they pass.
// Entry: add_screw, slot_mm_of.
#include <algorithm>
#include <array>
#include <cmath>

#include <fmt/format.h>

#include "diag/catalogue.h"
#include "fitup/tolerances.h"
#include "fitup/welded_sizes.h"
#include "plan/followed.h"
#include "plan/hardware.h"
#include "plan/hole_in_row.h"
#include "plan/holes.h"
#include "plan/mount_clearance.h"
#include "plan/nut_strip.h"
#include "plan/patterns.h"
#include "plan/rule_steps.h"
#include "plan/screw_fixing.h"
#include "plan/tube.h"
#include "spec/spec_writer.h"

namespace fitup::plan {

namespace {

// What comes out of the wall of a tube stays inside.
bool in_tube(const Build& build, InstanceId id) {
  const auto* member = std::get_if<Member>(&build.draft.part(id).form);
  return member != nullptr && is_tube(member->section);
}

// The wall opposite must not stop the screw.
bool ends_in_hollow(const Build& build, const ScrewPlace& place, double length_mm) {
  const Layer& last = place.layers.back();
  if (!in_tube(build, last.instance)) return true;
  const Section& s = std::get<Member>(build.draft.part(last.instance).form).section;
  const Vec3 through = build.draft.pose(last.instance).inverse().turn(place.direction);
  const double side = std::abs(through.y) > 0.5 ? s.leg_b_mm : s.leg_a_mm;
  return length_mm < last.from_mm + side - s.thickness_mm - tolerance::contact_mm;
}

// The keys of its row.
std::string other_places(const ScrewPlace& place) {
  const std::string row = place.fixing_key.substr(0, place.fixing_key.rfind('.'));
  const auto keys = [&](const char* at, const char* thread) {
    return fmt::format("give the screws of its row their places in {}.{}, or choose another {}.{}", row, at, row,
                       thread);
  };
  if (row.ends_with(".rod_plates")) return keys("screw_at", "screw");
  if (row.ends_with(".screws")) return keys("at", "thread");
  return "move it or choose another size";
}

// Where a sill of plate is too low between the floor and its ribs: of which border it is high enough.
std::string higher_sill(const Build& build, InstanceId id) {
  for (const Side side : {low, high}) {
    const double border = build.shell.wider_border_mm[side];
    if (border > 0 && build.shell.bottom[side].id == id)
      return fmt::format("make {} at least {}, ", build.key("plates.border"), build.at_least(border));
  }
  return {};
}

// The longest slot for which there is room where that hole is, in whole steps; 0 if there is none.
double longest_slot_mm(Build& build, const ScrewPlace& place, InstanceId id, RoundHole hole) {
  const double step = steps_of(*tables::find_thread(place.thread)).place_mm;
  const Part as_it_is = build.draft.part(id);
  while (hole.slot_mm > step + tolerance::contact_mm) {
    hole.slot_mm = step * std::floor((hole.slot_mm - tolerance::contact_mm) / step);
    if (make_hole(build, id, hole)) continue;
    build.draft.part(id) = as_it_is;
    return hole.slot_mm;
  }
  return 0;
}

void say_no_room_for_slot(Build& build, const ScrewPlace& place, InstanceId id, const RoundHole& hole,
                          const std::string& problem) {
  const std::string row = place.fixing_key.substr(0, place.fixing_key.rfind('.'));
  const std::string prefix = row.ends_with(".rod_plates") ? row + ".screw_" : row + ".";
  const double longest = longest_slot_mm(build, place, id, hole);
  const std::string remedy = longest > 0 ? fmt::format("give {}slot at most {}", prefix, build.at_most(longest))
                                         : fmt::format("choose {}hole = \"round\"", prefix);
  if (is_said(build, "no-room-for-hole", place.origin.place, "; " + remedy)) return;
  build.diagnostics.add(diag::say<"no-room-for-hole">(
      place.origin.place,
      fmt::format("{} x {} slotted", build.in_words(hole.diameter_mm), build.in_words(hole.diameter_mm + hole.slot_mm)),
      place.name, build.draft.instance(id).name, problem, remedy));
}

// Makes the hole, or says why not.
bool room_for(Build& build, const ScrewPlace& place, InstanceId id, const RoundHole& hole) {
  const auto problem = make_hole(build, id, hole);
  if (!problem) return true;
  RoundHole round = hole;
  round.slot_mm = 0;
  const Part as_it_is = build.draft.part(id);
  const bool by_slot = hole.slot_mm > 0 && !make_hole(build, id, round);
  build.draft.part(id) = as_it_is;
  if (by_slot) {
    say_no_room_for_slot(build, place, id, hole, *problem);
  } else {
    say_no_room(build, place.origin.place, hole.diameter_mm, place.name, id, *problem,
                higher_sill(build, id) + clearance_for_mount(build, place, id, hole) + other_places(place));
  }
  return false;
}

// Whether what holds the screw is in that layer.
bool holds_in(const ScrewPlace& place, std::size_t layer) { return layer + place.threaded >= place.layers.size(); }

// How thick what holds it is.
double held_mm(const ScrewPlace& place) {
  return place.layers.back().to_mm - place.layers[place.layers.size() - place.threaded].from_mm;
}

// Holes in every layer; false if one cannot be made.
bool make_screw_holes(Build& build, const ScrewPlace& place, const Thread& thread, const ScrewHold& hold) {
  for (std::size_t i = 0; i < place.layers.size(); ++i) {
    const Layer& layer = place.layers[i];
    if (build.draft.part(layer.instance).role == Role::item) continue;  // its holes are its own
    const bool last = holds_in(place, i);
    RoundHole hole{place.seat + layer.from_mm * place.direction, place.direction,
                   last ? hold.hole_mm : thread.clear_medium_mm, last ? hold.hole : HoleKind::clear,
                   last ? hold.purpose : "clear " + thread.size, last && place.fixing == ScrewFixing::weld_nut};
    if (last && place.threaded > 1) hole.purpose += " through both, once welded";
    if (i == 0 && !last) {
      hole.slot_mm = place.slot_mm;
      hole.slot_along = place.slot_along;
    }
    keep_from_other_holes(build, place, layer.instance, hole);
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
    if (holds_in(place, i)) {
      draft.join(screw, layers[i].instance, JointKind::thread, place.direction, 0,
                 tables::find_thread(place.thread)->major_mm);
    } else if (i > 0) {
      draft.join(screw, layers[i].instance, JointKind::slip, place.direction);
    }
    draft.join(layers[i].instance, layers[i + 1].instance, JointKind::bolted, place.direction, most_drawn_mm);
  }
}

// Of what the thread is in; of an item, whose material is not known, as of steel.
const Material& threaded_material(const Build& build, const ScrewPlace& place) {
  const Material* known = tables::find_material(build.draft.part(place.layers.back().instance).material);
  return known != nullptr ? *known : *tables::find_material(material_of(build));
}

// Whether that fixing would hold there: a thread in what is thick enough for it, or a seat with room behind it.
bool would_hold(const Build& build, const ScrewPlace& place, ScrewFixing fixing) {
  const Thread& thread = *tables::find_thread(place.thread);
  const Material& material = threaded_material(build, place);
  const Layer& last = place.layers.back();
  const double thick = fixing == ScrewFixing::tapped ? held_mm(place) : last.to_mm - last.from_mm;
  const auto hold =
      fixing == ScrewFixing::nut_strip ? strip_hold(thread, place.screws, material) : hold_of(fixing, thread, thick);
  if (!hold) return false;
  if (fixing == ScrewFixing::tapped) return holds_thread_itself(thread, material, thick);
  if (fixing == ScrewFixing::nut_strip) {
    if (place.screws == nullptr) return false;
    if (holds_thread_itself(thread, material, thick)) return true;
    if (hold->engagement_mm < least_engagement_mm(thread, material) - tolerance::contact_mm) return false;
  }
  const Vec3 back = place.seat + last.to_mm * place.direction;
  return !hold_problem(build, *hold, last.instance, back, place.direction, thick) &&
         !(place.behind && hold->behind_mm > 0);
}

// Those of them that are made for the thread and hold there: "nut" or "insert".
std::string fixings_that_hold(const Build& build, const ScrewPlace& place) {
  constexpr std::array all{ScrewFixing::tapped,   ScrewFixing::nut_strip, ScrewFixing::insert,
                           ScrewFixing::weld_nut, ScrewFixing::nut,       ScrewFixing::locknut};
  std::string words;
  for (const ScrewFixing fixing : all) {
    if (!would_hold(build, place, fixing)) continue;
    words += fmt::format("{}\"{}\"", words.empty() ? "" : " or ", spec::words(fixing));
  }
  return words;
}

// What was not stated: a thread, else the first that holds there.
void choose_fixing(const Build& build, ScrewPlace& place) {
  if (!place.by_rule) return;
  for (const auto fixing : {ScrewFixing::tapped, ScrewFixing::weld_nut, ScrewFixing::insert, ScrewFixing::nut}) {
    if (!would_hold(build, place, fixing)) continue;
    place.fixing = fixing;
    if (fixing != ScrewFixing::tapped) place.threaded = 1;
    return;
  }
}

std::string other_fixings(const Build& build, const ScrewPlace& place) {
  const std::string words = fixings_that_hold(build, place);
  if (words.empty()) return "no other fixing has room there either: choose another thread or more room";
  return fmt::format("set {} to {}, which has room there, or choose another thread or more room", place.fixing_key,
                     words);
}

void say_no_hold(Build& build, const ScrewPlace& place, const ScrewHold& hold, const std::string& problem) {
  if (is_said(build, "no-room-for-fixing", place.thread_place, problem)) return;
  build.diagnostics.add(diag::say<"no-room-for-fixing">(place.thread_place, hold.noun, place.thread, place.name,
                                                        build.draft.instance(place.layers.back().instance).name,
                                                        problem, other_fixings(build, place)));
}

std::optional<ScrewHold> hold_for(const Build& build, const ScrewPlace& place, const Thread& thread) {
  if (place.fixing != ScrewFixing::nut_strip) return hold_of(place.fixing, thread, held_mm(place));
  return strip_hold(thread, place.screws, *tables::find_material(material_of(build)));
}

// Of screws, in words.
std::string threads_with(ScrewFixing fixing) {
  return threads_in_words([fixing](const Thread& thread) {
    return tables::find_button_head(thread.size) != nullptr && hold_of(fixing, thread, thread.major_mm).has_value();
  });
}

// An item's holes are as it was bought with them: no pattern is laid out for them.
bool holds_item(const Build& build, const ScrewPlace& place) {
  return std::any_of(place.layers.begin(), place.layers.end(),
                     [&](const Layer& layer) { return build.draft.part(layer.instance).role == Role::item; });
}

// The strip comes when its whole row is known.
void note_for_strip(Build& build, const ScrewPlace& place, const ScrewHold& hold, InstanceId screw) {
  const Layer& last = place.layers.back();
  build.strip_screws.push_back({screw, last.instance, build.draft.fasteners.size() - 1,
                                place.seat + last.to_mm * place.direction, place.direction, hold.behind_mm,
                                hold.seat_mm, place.thread, place.name.substr(0, place.name.rfind(' ')), place.origin});
}

// The largest of those that are smaller whose own hold is long enough, as its key is written; empty where there is none,
// or where the item's maker chose it.
std::string thread_that_holds(const Build& build, const ScrewPlace& place, const Thread& thread, double engagement) {
  if (place.fixing_key.empty() || holds_item(build, place)) return {};
  const Thread* best = nullptr;
  for (const Thread& other : tables::threads()) {
    if (tables::is_unified(other) != tables::is_unified(thread)) continue;
    const bool smaller = other.major_mm < thread.major_mm && tables::find_button_head(other.size) != nullptr;
    const bool holds = least_engagement_mm(other, threaded_material(build, place)) <= engagement + tolerance::contact_mm;
    if (smaller && holds && (best == nullptr || other.major_mm > best->major_mm)) best = &other;
  }
  if (best == nullptr) return {};
  const std::string row = place.fixing_key.substr(0, place.fixing_key.rfind('.'));
  const char* of_row = place.fixing_key.ends_with("screw_fixing") ? "screw" : "thread";
  return fmt::format(", as {}.{} = \"{}\"", row, of_row, best->size);
}

bool threads_enough(Build& build, const ScrewPlace& place, const Thread& thread, double engagement) {
  const double needed = least_engagement_mm(thread, threaded_material(build, place));
  if (engagement >= needed - tolerance::contact_mm) return true;
  if (place.fixing == ScrewFixing::nut_strip) {
    say_no_hold(
        build, place, strip_hold(thread, place.screws, threaded_material(build, place)),
        fmt::format("is {} thick, and {} needs {}", build.in_words(engagement), thread.size, build.at_least(needed)));
    return false;
  }
  const std::string thick = build.in_words(engagement) + " thick";
  if (is_said(build, "thread-too-short", place.thread_place, thick)) return false;
  const std::string made = place.fixing_key.empty() ? std::string() : fixings_that_hold(build, place);
  const std::string others = thread_that_holds(build, place, thread, engagement) +
                             (made.empty() ? std::string() : fmt::format(", or {} = {}", place.fixing_key, made));
  const bool steel = threaded_material(build, place).steel;
  build.diagnostics.add(
      diag::say<"thread-too-short">(place.thread_place, build.draft.instance(place.layers.back().instance).name,
                                    build.in_words(engagement), thread.size, steel ? "steel" : "aluminium",
                                    build.in_words(needed), steel ? "one diameter" : "two diameters", others));
  return false;
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
  if (length > last.to_mm - tolerance::contact_mm && !in_tube(build, last.instance)) {
    build.draft.screw_tips.push_back(
        {screw, last.instance, back, place.direction, place.thread, place.origin.place, hole_behind_mm(thread, hold)});
  }
}

}  // namespace

double slot_mm_of(const Build& build, const Sourced<HoleShape>& hole, const std::optional<Sourced<Length>>& slot,
                  Vec3 along) {
  if (*hole == HoleShape::round) return 0;
  if (slot) return (*slot)->mm();
  return 2 * tables::welded_length_permits_mm(std::abs(dot(build.shell.size, along)));
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
  if (in_tube(build, last.instance)) place.behind.reset();
  choose_fixing(build, place);
  if (place.fixing != wanted.fixing) note_fixing_of_item(build, place.fixing_key, place.fixing);
  const Material& material = threaded_material(build, place);
  if (place.fixing == ScrewFixing::nut_strip && holds_thread_itself(thread, material, last.to_mm - last.from_mm)) {
    place.fixing = ScrewFixing::tapped;
  }
  const auto hold = hold_for(build, place, thread);
  if (!hold) {
    if (!is_said(build, "fixing-not-made", place.thread_place, place.fixing_key)) {
      build.diagnostics.add(
          diag::say<"fixing-not-made">(place.thread_place, place.fixing_key, place.thread, threads_with(place.fixing)));
    }
    return;
  }
  const bool threaded = place.fixing == ScrewFixing::tapped || place.fixing == ScrewFixing::nut_strip;
  if (threaded && !threads_enough(build, place, thread, hold->engagement_mm)) return;
  if (!holds(build, place, *hold)) return;
  const double length = screw_length_mm(thread, last.to_mm + hold->screw_to_mm);
  if (length <= 0) {
    say_no_hold(build, place, *hold, "asks for a screw longer than any that is kept");
    return;
  }
  if (!ends_in_hollow(build, place, length)) {
    say_no_hold(build, place, *hold, "leaves the screw no room before the tube's opposite wall");
    return;
  }
  if (!make_screw_holes(build, place, thread, *hold)) return;
  const InstanceId screw = build.draft.add(button_head_screw(thread, head, length), along(place.seat, place.direction),
                                           place.name, place.origin);
  join_screw(build, place, screw);
  const InstanceId into = add_hold(build, *hold, place, screw);
  pass_tip(build, place, thread, *hold, screw, length);
  add_fastener(build, place, screw, into, hold->engagement_mm);
  if (!holds_item(build, place)) note_screw(build, place, *hold, screw);
  if (place.fixing == ScrewFixing::nut_strip) note_for_strip(build, place, *hold, screw);
}

}  // namespace fitup::plan

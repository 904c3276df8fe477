// The washer and the outer nut on a rod.
// Entry: carries_stack, stack_needed_mm, add_outer_nut.
#include "plan/outer_nut.h"

#include <fmt/format.h>

#include "diag/catalogue.h"
#include "plan/hardware.h"

namespace fitup::plan {

namespace {

constexpr double two_threads = 2;  // a rod shows two threads beyond its nut

const Washer& washer_of(const RodSpec& rods) {
  return *rods.washer == RodWasher::large ? *tables::find_large_washer(*rods.thread)
                                          : *tables::find_washer(*rods.thread);
}

// What stands on a rod beyond its item's end face, one after the other.
struct RodStack {
  double needed_mm = 0;  // of projection
  std::string words;     // the sum, term by term
};

RodStack rod_stack(const Build& build, const RodSpec& rods, double plate_mm, double off_mm) {
  const double inner = tables::find_nut(*rods.thread)->height_mm;
  const double outer = *rods.locknut ? tables::find_lock_nut(*rods.thread)->height_mm : inner;
  const double washer = washer_of(rods).thickness_mm;
  const double threads = two_threads * tables::find_thread(*rods.thread)->pitch_mm;
  const std::string off = off_mm > 0 ? fmt::format("{} to the deeper items' nuts + ", build.in_words(off_mm)) : "";
  return {off_mm + inner + plate_mm + washer + outer + threads,
          fmt::format("{}inner nut {} + rod plate {} + washer {} + {} {} + two threads {}", off, build.in_words(inner),
                      build.in_words(plate_mm), build.in_words(washer), *rods.locknut ? "locknut" : "outer nut",
                      build.in_words(outer), build.in_words(threads))};
}

// Says which hardware the tables lack for this thread; true if they lack none.
bool has_rod_hardware(Build& build, const ItemSpec& item) {
  const RodSpec& rods = *item.rods;
  const std::string lacking = lacking_hardware(item, rods);
  if (lacking.empty()) return true;
  const std::string other = threads_in_words([&](const Thread& thread) {
    RodSpec with = rods;
    with.thread.value = thread.size;
    return tables::find_nut(thread.size) != nullptr && tables::find_washer(thread.size) != nullptr &&
           lacking_hardware(item, with).empty();
  });
  build.diagnostics.add(diag::say<"fixing-not-made">(rods.thread.place, lacking, *rods.thread, other));
  return false;
}

}  // namespace

std::string lacking_hardware(const ItemSpec& item, const RodSpec& rods) {
  const std::string key = "item." + item.name + ".rods.";
  if (rods.strength && tables::is_unified(*tables::find_thread(*rods.thread))) return key + "strength";
  const bool large = *rods.washer == RodWasher::large;
  if (large && tables::find_large_washer(*rods.thread) == nullptr) return key + "washer";
  return *rods.locknut && tables::find_lock_nut(*rods.thread) == nullptr ? key + "locknut" : "";
}

double stack_needed_mm(const Build& build, const RodSpec& rods, double plate_mm, double off_mm) {
  return rod_stack(build, rods, plate_mm, off_mm).needed_mm;
}

bool carries_stack(Build& build, const ItemSpec& item, double plate_mm, double off_mm) {
  if (!has_rod_hardware(build, item)) return false;
  const RodSpec& rods = *item.rods;
  const RodStack stack = rod_stack(build, rods, plate_mm, off_mm);
  if (rods.projection->mm() >= stack.needed_mm - tolerance::contact_mm) return true;
  build.diagnostics.add(diag::say<"rod-too-short">(rods.projection.place, *rods.thread,
                                                   build.in_words(rods.projection->mm()), stack.words,
                                                   build.at_least(stack.needed_mm)));
  return false;
}

InstanceId add_second_nut(Build& build, const SecondNutPlace& place) {
  const Thread& thread = *tables::find_thread(*place.rods->thread);
  const HexNut& nut = *tables::find_nut(*place.rods->thread);
  Draft& draft = build.draft;
  const Vec3 at = draft.pose(place.rod).origin();
  const double seat = place.inner_y - place.outward.y * nut.height_mm;
  Part part = hex_nut(thread, nut);
  part.size += nut_class_in_words(place.rods->strength);
  const Instance& rod = draft.instance(place.rod);
  const InstanceId n = draft.add(part, along({at.x, seat, at.z}, place.outward),
                                 fmt::format("{} second nut {}", rod.name, place.side), {rod.key, rod.place, "items"});
  draft.join(n, place.rod, JointKind::thread, axis::y, 0, thread.major_mm);
  // It goes where its item goes.
  draft.join(n, place.item, JointKind::slip, Vec3{} - place.outward);
  draft.join(n, place.inner_nut, JointKind::slip, Vec3{} - place.outward);
  return n;
}

void add_outer_nut(Build& build, const OuterNutPlace& place) {
  const Thread& thread = *tables::find_thread(place.thread);
  const Washer& washer = washer_of(*place.rods);
  Draft& draft = build.draft;
  const Vec3 at = draft.pose(place.rod).origin();
  const std::string name = draft.instance(place.rod).name;
  const Origin origin{build.key("rod_plates"), build.box_spec().rod_plates->thickness.place, "rod nuts"};
  const InstanceId w = draft.add(plain_washer(washer), along({at.x, place.outer_y, at.z}, place.outward),
                                 fmt::format("{} washer {}", name, place.side), origin);
  const double seat = place.outer_y + place.outward.y * washer.thickness_mm;
  Part nut = *place.rods->locknut ? lock_nut(thread, *tables::find_lock_nut(place.thread))
                                  : hex_nut(thread, *tables::find_nut(place.thread));
  nut.size += nut_class_in_words(place.rods->strength);
  const InstanceId n = draft.add(nut, along({at.x, seat, at.z}, place.outward),
                                 fmt::format("{} outer nut {}", name, place.side), origin);
  draft.join(w, place.plate, JointKind::bearing, Vec3{} - place.outward);
  draft.join(w, place.rod, JointKind::slip, axis::x);
  draft.join(n, w, JointKind::bearing, Vec3{} - place.outward);
  draft.join(n, place.rod, JointKind::thread, axis::y, 0, thread.major_mm);
}

}  // namespace fitup::plan

// Patterns of holes as the steps make them.
// Entry: note_rod, note_screw, note_bolt, note_mount.
#include "plan/patterns.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

namespace fitup::plan {

namespace {

PatternBody& body_of(Pattern& pattern, InstanceId thing) {
  const auto found = std::find_if(pattern.bodies.begin(), pattern.bodies.end(),
                                  [thing](const PatternBody& body) { return body.thing == thing; });
  if (found != pattern.bodies.end()) return *found;
  pattern.bodies.push_back({thing, {}, {}, 0, 0});
  return pattern.bodies.back();
}

PatternBody& only_body(Pattern& pattern, InstanceId thing) {
  return body_of(pattern, pattern.bodies.empty() ? thing : pattern.bodies.front().thing);
}

PatternHole hole_for(InstanceId fastener, InstanceId plate, Vec3 at, Vec3 along, const Thread& thread, double hole_mm) {
  PatternHole hole;
  hole.fastener = fastener;
  hole.plate = plate;
  hole.at = at;
  hole.along = along;
  hole.thread = thread.size;
  hole.fastener_mm = thread.major_mm;
  hole.hole_mm = hole_mm;
  return hole;
}

bool overlap(double low_a, double high_a, double low_b, double high_b) {
  return std::min(high_a, high_b) - std::max(low_a, low_b) > tolerance::contact_mm;
}

}  // namespace

std::array<double, 2> room_beside(const Build& build, std::size_t item) {
  const Box3 own = item_box(build, item);
  double left = own.low.x - build.shell.side_wall_mm;
  double right = build.shell.size.x - build.shell.side_wall_mm - own.high.x;
  for (std::size_t i = 0; i < build.box.items.size(); ++i) {
    const Box3 box = item_box(build, i);
    if (i == item || !overlap(own.low.y, own.high.y, box.low.y, box.high.y) ||
        !overlap(own.low.z, own.high.z, box.low.z, box.high.z))
      continue;
    (box.middle().x < own.middle().x ? left : right) -= box.size().x;
  }
  return {std::max(0.0, left), std::max(0.0, right)};
}

bool is_in_holes(const Build& build, std::size_t item) {
  const PlacedItem& placed = build.box.items[item];
  const auto& plates = build.box_spec().rod_plates;
  if (!plates || !placed.item->rods || placed.quarters % 2 != 0) return false;
  return (placed.front_line && *plates->front != Fixing::none) || (placed.back_line && *plates->back != Fixing::none);
}

double rod_play_mm(const Build& build, const ItemSpec& item) {
  const double major = tables::find_thread(*item.rods->thread)->major_mm;
  const double loose = item.rods->bore && !*item.rods->fixed ? (*item.rods->bore)->mm() - major : 0;
  return rod_hole_mm(build, *item.rods->thread) - major + std::max(0.0, loose);
}

void note_rod(Build& build, const RodInPlate& rod) {
  const ItemSpec& item = *build.box.items[rod.item].item;
  const Thread& thread = *tables::find_thread(*item.rods->thread);
  Pattern& pattern = build.draft.pattern(
      "rods in their plates", {build.key("rod_plates"), build.box_spec().rod_plates->clearance_hole.place, ""});
  pattern.class_key = build.key("rod_plates.clearance_hole");
  PatternBody& body = body_of(pattern, rod.thing);
  const Box3 box = item_box(build, rod.item);
  body.stands = PatternStanding{box.low.x, box.high.x, box.low.z};
  const auto [left, right] = room_beside(build, rod.item);
  body.free_low_mm = left;
  body.free_high_mm = right;
  PatternHole hole = hole_for(rod.rod, rod.plate, rod.at, rod.along, thread, rod.hole_mm);
  hole.play_mm = rod_play_mm(build, item) - (rod_hole_mm(build, thread.size) - thread.major_mm);
  hole.made = *build.spec.making.holes;
  hole.within_mm = item.rods->within->mm();
  body.holes.push_back(std::move(hole));
}

void note_screw(Build& build, const ScrewPlace& place, const ScrewHold& hold, InstanceId screw) {
  if (place.layers.size() < 2) return;
  const Thread& thread = *tables::find_thread(place.thread);
  Pattern& pattern = build.draft.pattern(fmt::format("screws of the {}", place.origin.group), place.origin);
  PatternBody& body = only_body(pattern, place.layers.front().instance);
  const bool through =
      hold.hole == HoleKind::clear && (place.fixing == ScrewFixing::nut || place.fixing == ScrewFixing::locknut);
  for (std::size_t i = 0; i + 1 < place.layers.size(); ++i) {
    PatternHole hole =
        hole_for(screw, place.layers[i].instance, place.seat, place.direction, thread, thread.clear_medium_mm);
    if (i == 0) {
      hole.slot_mm = place.slot_mm;
      hole.slot_along = place.slot_along;
    }
    if (through) hole.play_mm = hold.hole_mm - thread.major_mm;
    hole.made = *build.spec.making.holes;
    hole.held = *build.spec.making.drilled;
    body.holes.push_back(std::move(hole));
  }
}

void note_bolt(Build& build, const std::string& size, Vec3 seat, Vec3 direction, const std::vector<Layer>& layers,
               const Origin& origin, InstanceId screw) {
  if (layers.size() < 2) return;
  const Thread& thread = *tables::find_thread(size);
  Pattern& pattern = build.draft.pattern("bolts of the bearers", origin);
  PatternBody& body = only_body(pattern, layers.front().instance);
  PatternHole hole = hole_for(screw, layers.front().instance, seat, direction, thread, thread.clear_medium_mm);
  hole.play_mm = thread.clear_medium_mm - thread.major_mm;
  hole.made = *build.spec.making.drilled;
  hole.held = *build.spec.making.drilled;
  body.holes.push_back(std::move(hole));
}

void note_mount(Build& build, const std::string& noun, const std::string& key, const MountSpec& spec,
                const BoltThroughMount& bolt) {
  const Thread& thread = *tables::find_thread(*spec.thread);
  Pattern& pattern = build.draft.pattern(fmt::format("bolts of each {}", noun), {key, spec.clearance_hole.place, ""});
  if (!spec.slot) pattern.class_key = key + ".clearance_hole";
  PatternBody& body = only_body(pattern, bolt.mount);
  PatternHole hole = hole_for(bolt.mount, bolt.mount, bolt.at, bolt.along, thread, bolt.hole_mm);
  hole.slot_mm = bolt.slot_mm;
  hole.slot_along = bolt.slot_along;
  hole.made = *build.spec.making.holes;
  hole.held = *build.spec.making.drilled;
  body.holes.push_back(std::move(hole));
}

}  // namespace fitup::plan

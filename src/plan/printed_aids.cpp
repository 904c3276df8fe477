// Printed aids: a stand-in spacer for each thing between two items, a drill guide for each rod pattern.
// Entry: add_printed_aids.
#include <algorithm>
#include <map>
#include <set>

#include <fmt/format.h>

#include "plan/build.h"

namespace fitup::plan {

namespace {

constexpr double spacer_width_mm = 60;
constexpr double spacer_height_mm = 80;
constexpr double finger_hole_mm = 25;
constexpr double guide_thickness_mm = 8;
constexpr double guide_rim_mm = 12;               // beyond the outer holes' centres, and the width of the guide's bars
constexpr double print_density_kg_per_m3 = 1240;  // PLA, common practice

Part printed(std::string mark, std::string name, Role role, std::string size, Prism prism) {
  Part part;
  part.mark = std::move(mark);
  part.name = std::move(name);
  part.role = role;
  part.source = Source::printed;
  part.material = "print";
  part.size = std::move(size);
  part.mass_kg = prism.volume_mm3() * 1e-9 * print_density_kg_per_m3;
  part.form = Solidform{{std::move(prism)}};
  return part;
}

// A block as thick as what it stands in for, less the fit, with a hole for a finger.
Part spacer(const Build& build, const ItemSpec& item, int number) {
  const double gap = (*item.size)[0].mm();
  const double thick = gap - build.spec.print.fit->mm();
  const double height = std::min(spacer_height_mm, (*item.size)[2].mm());
  const double width = std::min(spacer_width_mm, (*item.size)[1].mm());
  Profile profile{Loop::rounded_rectangle({0, 0}, {width, height}, 4), {}};
  if (std::min(width, height) > finger_hole_mm + 20) {
    profile.holes.push_back(Loop::circle({width / 2, height - finger_hole_mm / 2 - 10}, finger_hole_mm / 2));
  }
  return printed(fmt::format("PRT{:02}", number), "spacer for " + item.name, Role::spacer,
                 fmt::format("{:g} mm thick for a gap of {:g} mm", thick, gap), {profile, Pose{}, thick});
}

// A frame round the pattern with holes of the rod plates' size: lay it on, drill through.
Part drill_guide(const Build& build, const ItemSpec& item, double hole_mm, int number) {
  Box2 span;
  for (const auto& at : item.rods->at) span.add({(*at)[0].mm(), (*at)[1].mm()});
  const Vec2 rim{guide_rim_mm, guide_rim_mm};
  const Vec2 origin = span.low - rim;
  Profile profile{Loop::rounded_rectangle({0, 0}, span.high + rim - origin, 4), {}};
  const Vec2 size = span.high + rim - origin;
  const Vec2 bar = 2 * rim;
  if (size.x > 2 * bar.x + guide_rim_mm && size.y > 2 * bar.y + guide_rim_mm) {
    profile.holes.push_back(Loop::rounded_rectangle(bar, size - bar, 4));
  }
  const double guide_hole = hole_mm + build.spec.print.fit->mm();
  for (const auto& at : item.rods->at) {
    const Loop hole = Loop::circle(Vec2{(*at)[0].mm(), (*at)[1].mm()} - origin, guide_hole / 2);
    profile.holes.push_back(hole);
  }
  // A rod in the middle of the pattern leaves no room for the window.
  if (flaw_in(profile) && profile.holes.size() > item.rods->at.size()) profile.holes.erase(profile.holes.begin());
  return printed(fmt::format("PRT{:02}", number), "drill guide for " + item.name, Role::drill_guide,
                 fmt::format("{} holes for a {:g} mm drill", item.rods->at.size(), hole_mm),
                 {profile, Pose{}, guide_thickness_mm});
}

}  // namespace

double rod_hole_mm(const Build& build, const std::string& thread) {
  const Thread& t = *tables::find_thread(thread);
  if (!build.box_spec().rod_plates) return t.clear_medium_mm;
  switch (*build.box_spec().rod_plates->clearance_hole) {
    case HoleClass::close: return t.clear_close_mm;
    case HoleClass::medium: return t.clear_medium_mm;
    case HoleClass::loose: break;
  }
  return t.clear_loose_mm;
}

void add_printed_aids(Build& build) {
  std::map<std::string, int> between;
  std::set<std::string> rodded;
  for (const PlacedItem& p : build.box.items) {
    if (p.spacer) ++between[p.item->name];
    if (p.item->rods) rodded.insert(p.item->name);
  }
  int number = 0;
  for (const auto& [name, count] : between)
    build.draft.add_loose(spacer(build, *build.spec.item(name), ++number), count);
  number = 20;
  for (const std::string& name : rodded) {
    const ItemSpec& item = *build.spec.item(name);
    build.draft.add_loose(drill_guide(build, item, rod_hole_mm(build, *item.rods->thread), ++number), 1);
  }
}

}  // namespace fitup::plan

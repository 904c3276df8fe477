// Printed aids: a stand-in spacer for each thing between two items, a drill guide for each rod pattern.
// Entry: add_printed_aids.
#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <optional>
#include <set>

#include <fmt/format.h>

#include "diag/catalogue.h"
#include "fitup/tolerances.h"
#include "plan/build.h"
#include "plan/size_words.h"

namespace fitup::plan {

namespace {

constexpr double spacer_width_mm = 60;
constexpr double spacer_height_mm = 80;
constexpr double finger_hole_mm = 25;
constexpr double guide_thickness_mm = 8;
constexpr double guide_rim_mm = 12;     // beyond the outer holes' centres, and the width of the guide's bars
constexpr double guide_wall_mm = 2;     // round a hole of the guide (common practice)
constexpr double least_print_mm = 0.4;  // one line of a usual nozzle (common practice)
constexpr double corner_radius_mm = 4;
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
std::optional<Part> spacer(const Build& build, const ItemSpec& item, int number) {
  const double gap = (*item.size)[0].mm();
  const double thick = gap - build.spec.print.fit->mm();
  if (thick < least_print_mm - tolerance::contact_mm) {
    const auto words = [&build](double mm) { return build.in_words(mm); };
    build.diagnostics.add(
        diag::say<"no-spacer">(build.spec.print.fit.given ? build.spec.print.fit.place : item.size.place, item.name,
                               words(gap), words(gap - thick), words(std::max(thick, 0.0)), words(least_print_mm)));
    return std::nullopt;
  }
  const double height = std::min(spacer_height_mm, (*item.size)[2].mm());
  const double width = std::min(spacer_width_mm, (*item.size)[1].mm());
  const double radius = std::min(corner_radius_mm, std::min(width, height) / 4);
  Profile profile{Loop::rounded_rectangle({0, 0}, {width, height}, radius), {}};
  if (std::min(width, height) > finger_hole_mm + 20) {
    profile.holes.push_back(Loop::circle({width / 2, height - finger_hole_mm / 2 - 10}, finger_hole_mm / 2));
  }
  return printed(fmt::format("PRT{:02}", number), "spacer for " + item.name, Role::spacer,
                 fmt::format("{} mm thick for a gap of {} mm", plain(thick), plain(gap)), {profile, Pose{}, thick});
}

double least_distance_mm(const RodSpec& rods) {
  double least = std::numeric_limits<double>::infinity();
  for (auto a = rods.at.begin(); a != rods.at.end(); ++a) {
    for (auto b = rods.at.begin(); b != a; ++b) {
      least = std::min(least, std::hypot(((**a)[0] - (**b)[0]).mm(), ((**a)[1] - (**b)[1]).mm()));
    }
  }
  return least;
}

// A frame round the pattern with holes of the rod plates' size: lay it on, drill through.
Profile guide_profile(const RodSpec& rods, double guide_hole_mm) {
  Box2 span;
  for (const auto& at : rods.at) span.add({(*at)[0].mm(), (*at)[1].mm()});
  const double rim_mm = std::max(guide_rim_mm, guide_hole_mm / 2 + guide_wall_mm);
  const Vec2 rim{rim_mm, rim_mm};
  const Vec2 origin = span.low - rim;
  const Vec2 size = span.high + rim - origin;
  Profile profile{Loop::rounded_rectangle({0, 0}, size, corner_radius_mm), {}};
  for (const auto& at : rods.at) {
    profile.holes.push_back(Loop::circle(Vec2{(*at)[0].mm(), (*at)[1].mm()} - origin, guide_hole_mm / 2));
  }
  const Vec2 bar = 2 * rim;
  if (size.x <= 2 * bar.x + guide_rim_mm || size.y <= 2 * bar.y + guide_rim_mm) return profile;
  // A rod in the middle of the pattern leaves no room for the window.
  const Box2 window{bar - Vec2{guide_wall_mm, guide_wall_mm}, size - bar + Vec2{guide_wall_mm, guide_wall_mm}};
  for (const auto& at : rods.at) {
    const Vec2 centre = Vec2{(*at)[0].mm(), (*at)[1].mm()} - origin;
    const Vec2 nearest{std::clamp(centre.x, window.low.x, window.high.x),
                       std::clamp(centre.y, window.low.y, window.high.y)};
    if (norm(centre - nearest) < guide_hole_mm / 2) return profile;
  }
  profile.holes.insert(profile.holes.begin(), Loop::rounded_rectangle(bar, size - bar, corner_radius_mm));
  return profile;
}

std::optional<Part> drill_guide(const Build& build, const ItemSpec& item, double hole_mm, int number) {
  const double guide_hole = hole_mm + build.spec.print.fit->mm();
  const double least = least_distance_mm(*item.rods);
  if (least < guide_hole + guide_wall_mm - tolerance::contact_mm) {
    const std::string why = fmt::format(
        "its holes of {} need {} from centre to centre, and two rods stand {} apart; move the rods, or make print.fit "
        "or the clearance hole smaller",
        build.in_words(guide_hole), build.in_words(guide_hole + guide_wall_mm), build.in_words(least));
    build.diagnostics.add(diag::say<"no-drill-guide">(item.rods->at.front().place, item.name, why));
    return std::nullopt;
  }
  return printed(fmt::format("PRT{:02}", number), "drill guide for " + item.name, Role::drill_guide,
                 fmt::format("{} holes for a {} mm drill", item.rods->at.size(), plain(hole_mm)),
                 {guide_profile(*item.rods, guide_hole), Pose{}, guide_thickness_mm});
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
  for (const auto& [name, count] : between) {
    if (auto part = spacer(build, *build.spec.item(name), ++number)) build.draft.add_loose(std::move(*part), count);
  }
  number = 20;
  for (const std::string& name : rodded) {
    const ItemSpec& item = *build.spec.item(name);
    auto part = drill_guide(build, item, rod_hole_mm(build, *item.rods->thread), ++number);
    if (part) build.draft.add_loose(std::move(*part), 1);
  }
}

}  // namespace fitup::plan

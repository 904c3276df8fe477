// Printed aids: a spacer for each thing or gap between two items, a drill guide for each rod pattern.
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
#include "plan/coat.h"
#include "plan/loose_hardware.h"
#include "plan/printed_part.h"
#include "plan/row_guides.h"
#include "plan/size_words.h"

namespace fitup::plan {

namespace {

constexpr double spacer_width_mm = 60;
constexpr double spacer_height_mm = 80;
constexpr double finger_hole_mm = 25;
constexpr double guide_thickness_mm = 8;
constexpr double guide_rim_mm = 12;  // beyond the outer holes' centres, and the width of the guide's bars
constexpr double guide_wall_mm = 2;  // round a hole of the guide (common practice)
constexpr double bush_wall_mm = 1;   // of a drill bush round its drill
// As high and wide as a hand holds, and as the item beside it, with a hole for a finger.
Profile spacer_profile(const std::array<Length, 3>& item) {
  const double height = std::min(spacer_height_mm, item[2].mm());
  const double width = std::min(spacer_width_mm, item[1].mm());
  const double radius = std::min(print_corner_radius_mm, std::min(width, height) / 4);
  Profile profile{Loop::rounded_rectangle({0, 0}, {width, height}, radius), {}};
  if (std::min(width, height) > finger_hole_mm + 20) {
    profile.holes.push_back(Loop::circle({width / 2, height - finger_hole_mm / 2 - 10}, finger_hole_mm / 2));
  }
  return profile;
}

// A block as thick as what it stands in for, less the fit.
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
  return printed({number, "spacer for " + item.name, Role::spacer,
                  fmt::format("{} mm thick for a gap of {} mm", plain(thick), plain(gap))},
                 printed_plate(build, spacer_profile(*item.size), thick));
}

using Gaps = std::map<std::pair<double, std::array<Length, 3>>, int>;

// Between lines that stand behind each other: two for each item of a line but the last.
Gaps line_gaps(const Build& build) {
  Gaps gaps;
  const double gap = build.box_spec().line_gap->mm();
  int last = 0;
  for (const RowEntry& entry : build.box_spec().row) last = std::max(last, *entry.line);
  for (const RowEntry& entry : build.box_spec().row) {
    if (gap > 0 && *entry.line < last) gaps[{gap, *build.spec.item(*entry.of)->size}] += 2 * *entry.count;
  }
  return gaps;
}

// Spacers for the gaps that nothing fills, beside items of one size.
void add_gap_spacers(Build& build, int number) {
  Gaps gaps;
  for (const RowEntry& entry : build.box_spec().row) {
    if (entry.gap && *entry.count > 1)
      gaps[{entry.gap->value.mm(), *build.spec.item(*entry.of)->size}] += *entry.count - 1;
  }
  for (const auto& [kind, count] : line_gaps(build)) gaps[kind] += count;
  for (const auto& [kind, count] : gaps) {
    const double thick = kind.first - build.spec.print.fit->mm();
    if (thick < least_print_mm - tolerance::contact_mm) {
      say_no_aid(build, "spacer for a gap", kind.first, "the gap");
      continue;
    }
    build.draft.add_loose(printed({number++, "spacer for a gap", Role::spacer,
                                   fmt::format("{} mm thick for a gap of {} mm", plain(thick), plain(kind.first))},
                                  printed_plate(build, spacer_profile(kind.second), thick)),
                          count);
  }
}

/// Of holes that are drilled through a guide: those of an item's rods, or of its mounts.
using Pattern = std::vector<Lengths<2>>;
struct Guided {
  const ItemSpec& item;
  const Pattern& at;
  double drill_mm = 0;
  int number = 0;
};

double least_distance_mm(const Pattern& pattern) {
  double least = std::numeric_limits<double>::infinity();
  for (auto a = pattern.begin(); a != pattern.end(); ++a) {
    for (auto b = pattern.begin(); b != a; ++b) {
      least = std::min(least, std::hypot(((**a)[0] - (**b)[0]).mm(), ((**a)[1] - (**b)[1]).mm()));
    }
  }
  return least;
}

// A frame round the pattern with holes of the rod plates' size: lay it on, drill through.
Profile guide_profile(const Pattern& pattern, double guide_hole_mm) {
  Box2 span;
  for (const auto& at : pattern) span.add({(*at)[0].mm(), (*at)[1].mm()});
  const double rim_mm = std::max(guide_rim_mm, guide_hole_mm / 2 + guide_wall_mm);
  const Vec2 rim{rim_mm, rim_mm};
  const Vec2 origin = span.low - rim;
  const Vec2 size = span.high + rim - origin;
  Profile profile{Loop::rounded_rectangle({0, 0}, size, print_corner_radius_mm), {}};
  for (const auto& at : pattern) {
    profile.holes.push_back(Loop::circle(Vec2{(*at)[0].mm(), (*at)[1].mm()} - origin, guide_hole_mm / 2));
  }
  const Vec2 bar = 2 * rim;
  if (size.x <= 2 * bar.x + guide_rim_mm || size.y <= 2 * bar.y + guide_rim_mm) return profile;
  // A rod in the middle of the pattern leaves no room for the window.
  const Box2 window{bar - Vec2{guide_wall_mm, guide_wall_mm}, size - bar + Vec2{guide_wall_mm, guide_wall_mm}};
  for (const auto& at : pattern) {
    const Vec2 centre = Vec2{(*at)[0].mm(), (*at)[1].mm()} - origin;
    const Vec2 nearest{std::clamp(centre.x, window.low.x, window.high.x),
                       std::clamp(centre.y, window.low.y, window.high.y)};
    if (norm(centre - nearest) < guide_hole_mm / 2) return profile;
  }
  profile.holes.insert(profile.holes.begin(), Loop::rounded_rectangle(bar, size - bar, print_corner_radius_mm));
  return profile;
}

// What goes wrong with a hole of this width for the drill; empty: nothing.
std::string flaw_in_guide(const Build& build, const Pattern& pattern, double drill_mm, double guide_hole_mm) {
  const auto& bush = build.spec.print.bush;
  if (bush && bush->value.mm() < drill_mm + 2 * bush_wall_mm - tolerance::contact_mm) {
    return fmt::format("a bush of {} leaves no wall round a drill of {}; make print.bush at least {}",
                       build.in_words(bush->value.mm()), build.in_words(drill_mm),
                       build.at_least(drill_mm + 2 * bush_wall_mm));
  }
  const double least = least_distance_mm(pattern);
  if (least >= guide_hole_mm + guide_wall_mm - tolerance::contact_mm) return {};
  return fmt::format(
      "its holes of {} need {} from centre to centre, and two stand {} apart; move them, or make {} smaller",
      build.in_words(guide_hole_mm), build.in_words(guide_hole_mm + guide_wall_mm), build.in_words(least),
      bush ? "print.bush" : "print.hole_allowance or the clearance hole");
}

void add_guide(Build& build, const Guided& guided) {
  const auto& bush = build.spec.print.bush;
  const double guide_hole = drawn_hole_mm(build, bush ? bush->value.mm() : guided.drill_mm);
  const std::string flaw = flaw_in_guide(build, guided.at, guided.drill_mm, guide_hole);
  if (!flaw.empty()) {
    const Place& place = bush ? bush->place : guided.at.front().place;
    build.diagnostics.add(diag::say<"no-drill-guide">(place, guided.item.name, flaw));
    return;
  }
  std::string size = fmt::format("{} holes for a {} mm drill", guided.at.size(), plain(guided.drill_mm));
  if (bush) size += fmt::format(", in bushes of {} mm outside", plain(bush->value.mm()));
  build.draft.add_loose(printed({guided.number, "drill guide for " + guided.item.name, Role::drill_guide, size},
                                printed_plate(build, guide_profile(guided.at, guide_hole), guide_thickness_mm)),
                        1);
  if (bush) list_drill_bushes(build, bush->value.mm(), guided.drill_mm, static_cast<int>(guided.at.size()));
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
  std::set<std::string> mounted;
  for (const PlacedItem& p : build.box.items) {
    if (p.spacer) ++between[p.item->name];
    if (p.item->rods) rodded.insert(p.item->name);
    if (p.item->mounts) mounted.insert(p.item->name);
  }
  int number = 0;
  for (const auto& [name, count] : between) {
    if (auto part = spacer(build, *build.spec.item(name), ++number)) build.draft.add_loose(std::move(*part), count);
  }
  number = 20;
  for (const std::string& name : rodded) {
    const ItemSpec& item = *build.spec.item(name);
    // Drilled before it is coated.
    const double drill_mm = rod_hole_mm(build, *item.rods->thread) + coat_in_hole_mm(build.spec);
    add_guide(build, {item, item.rods->at, drill_mm, ++number});
  }
  for (const std::string& name : mounted) {
    const ItemSpec& item = *build.spec.item(name);
    const double drill_mm = tables::find_thread(*item.mounts->thread)->clear_medium_mm + coat_in_hole_mm(build.spec);
    add_guide(build, {item, item.mounts->at, drill_mm, ++number});
  }
  add_row_guides(build);
  add_gap_spacers(build, 41);
  add_jigs(build);
}

}  // namespace fitup::plan

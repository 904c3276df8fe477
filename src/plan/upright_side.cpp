// What an upright offers a rod plate on its inner side.
// Entry: UprightSide, remedy_of_miss, wider_uprights_words.
#include "plan/upright_side.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "fitup/tables.h"
#include "fitup/tolerances.h"
#include "plan/holes.h"
#include "plan/screw_fixing.h"

namespace fitup::plan {

namespace {

double hole_mm(const RodPlatesSpec& plates, const Host& host) {
  const Thread& thread = *tables::find_thread(*plates.screw);
  const auto hold = hold_of(*plates.screw_fixing, thread, host.depth_mm(axis::x));
  return hold ? hold->hole_mm : thread.tap_drill_mm;
}

// Of a tube: the hole, or what comes out of it inside, where the corners are as round.
double in_flat_mm(const RodPlatesSpec& plates, const Host& host) {
  const Thread& thread = *tables::find_thread(*plates.screw);
  const auto hold = hold_of(*plates.screw_fixing, thread, host.depth_mm(axis::x));
  const bool holder = hold && hold->behind_mm > 0;
  return std::max(hole_mm(plates, host), holder ? hole_behind_mm(thread, *hold) : thread.major_mm);
}

}  // namespace

double UprightSide::screws_begin_mm(const RodPlatesSpec& plates) const {
  if (begins_mm() <= 0) return 0;
  return begins_mm() + (host.wall_mm > 0 ? in_flat_mm(plates, host) : hole_mm(plates, host)) / 2;
}

double UprightSide::screws_end_mm(const RodPlatesSpec& plates, double edge_mm) const {
  const double web = web_mm(host.wall_mm > 0 ? host.wall_mm : host.depth_mm(axis::x));
  const double to_edge = width_mm() - std::max(edge_mm, hole_mm(plates, host) / 2 + web);
  return host.wall_mm > 0 ? std::min(to_edge, ends_mm() - in_flat_mm(plates, host) / 2) : to_edge;
}

std::string wider_uprights_words(const Build& build, double least_mm) {
  const std::string key = build.key("frame.uprights");
  const Section* now = build.spec.section(*build.box_spec().frame.uprights);
  const Section* wider = nullptr;
  for (const Section& s : tables::sections()) {
    if (now == nullptr || now->shape != SectionShape::flat || s.shape != SectionShape::flat) continue;
    if (std::abs(s.thickness_mm - now->thickness_mm) > tolerance::contact_mm) continue;
    if (s.leg_a_mm < least_mm - tolerance::contact_mm) continue;
    if (wider == nullptr || s.leg_a_mm < wider->leg_a_mm) wider = &s;
  }
  if (wider != nullptr) return fmt::format("{} = \"{}\"", key, wider->designation);
  return fmt::format("uprights at least {} wide ({})", build.at_least(least_mm), key);
}

std::string remedy_of_miss(const Build& build, const UprightSide& upright, const std::string& face, double outer_mm,
                           double nut_mm) {
  const double t = build.box_spec().rod_plates->thickness->mm();
  const double wall = build.shell.end_wall_mm;
  const double most = upright.ends_mm() - wall + nut_mm;
  if (outer_mm < upright.begins_mm()) {
    return fmt::format("choose a {} clearance of at least {}", face,
                       build.at_least(upright.begins_mm() + t + nut_mm - wall));
  }
  if (upright.host.wall_mm > 0) {
    return fmt::format("choose {} = \"bolted\", whose flanges reach the uprights",
                       build.key(fmt::format("rod_plates.{}", face)));
  }
  if (most < 0) return "choose uprights that are wider from the front to the back";
  return fmt::format("choose a {} clearance of at most {}, or {}", face, build.at_most(most),
                     wider_uprights_words(build, upright.width_mm() + outer_mm + t - upright.ends_mm()));
}

}  // namespace fitup::plan

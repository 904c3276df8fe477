// Rails: strips under the foot strips, from wall to wall on the bottom ring.
// Entry: add_rails.
#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "diag/catalogue.h"
#include "fitup/tolerances.h"
#include "plan/build.h"

namespace fitup::plan {

namespace {

// Foot strips nearer than this share a rail: a thermal plate's gap, not an item's width.
constexpr double share_mm = 30;
// Widths are rounded up to what is easily cut and read.
constexpr double width_step_mm = 5;

struct Strip {
  double low = 0;
  double high = 0;
};

std::vector<Strip> shared_strips(const Build& build) {
  std::vector<Strip> out;
  for (const SupportLine& s : build.box.supports) {
    const double shift = build.shift_of(s.item).x;
    const Strip strip{s.from_x + shift, s.to_x + shift};
    if (!out.empty() && strip.low - out.back().high <= share_mm) {
      out.back().high = std::max(out.back().high, strip.high);
    } else {
      out.push_back(strip);
    }
  }
  return out;
}

// By rule: the strip and its margin on both sides, the first and the last held off the wall by the inset.
std::vector<Strip> by_rule(const Build& build, const std::vector<Strip>& strips) {
  const RailsSpec& spec = build.box_spec().rails;
  const double margin = spec.margin->mm();
  const double inset = build.shell.rail_inset_mm;
  std::vector<Strip> rails;
  for (std::size_t i = 0; i < strips.size(); ++i) {
    const double middle = (strips[i].low + strips[i].high) / 2;
    const bool first = i == 0;
    const bool last = i + 1 == strips.size();
    double width = rounded_up(strips[i].high - strips[i].low + 2 * margin, width_step_mm);
    Strip rail{middle - width / 2, middle + width / 2};
    if ((first || last) && spec.outer_width) width = (*spec.outer_width)->mm();
    const double far = build.shell.size.x - inset;
    if (first && (spec.outer_width || rail.low < inset)) rail = {inset, inset + width};
    if (last && !first && (spec.outer_width || rail.high > far)) rail = {far - width, far};
    rails.push_back(rail);
  }
  return rails;
}

std::vector<Strip> as_given(Build& build, std::vector<Strip> rails) {
  const auto& at = build.box_spec().rails.at;
  if (!at) return rails;
  if (at->value.size() != rails.size()) {
    build.diagnostics.add(diag::say<"rail-count">(at->place, at->value.size(), rails.size()));
    return {};
  }
  for (std::size_t i = 0; i < rails.size(); ++i) {
    const double half = (rails[i].high - rails[i].low) / 2;
    const double centre = at->value[i].mm();
    rails[i] = {centre - half, centre + half};
  }
  return rails;
}

bool lies_on(const Box3& rail, const Box3& deck) {
  constexpr double band = tolerance::contact_mm;
  return rail.low.x < deck.high.x - band && deck.low.x < rail.high.x - band && rail.low.y < deck.high.y - band &&
         deck.low.y < rail.high.y - band;
}

}  // namespace

std::vector<InstanceId> add_rails(Build& build) {
  const Shell& shell = build.shell;
  const RailsSpec& spec = build.box_spec().rails;
  const std::vector<Strip> rails = as_given(build, by_rule(build, shared_strips(build)));
  std::vector<InstanceId> ids;
  for (std::size_t i = 0; i < rails.size(); ++i) {
    const bool outer = i == 0 || i + 1 == rails.size();
    const Box3 box{{rails[i].low, shell.rail_inset_mm, shell.deck_mm},
                   {rails[i].high, shell.size.y - shell.rail_inset_mm, shell.floor_mm}};
    const PlateSpec plate{fmt::format("RAL{:02}", outer ? 1 : 2), outer ? "outer rail" : "inner rail", Role::rail,
                          material_of(build)};
    const InstanceId id = add_plate(build, plate, box, axis::z, fmt::format("rail {}", i + 1),
                                    {build.key("rails"), spec.thickness.place, "frame"});
    ids.push_back(id);
    for (const Host& host : shell.deck) {
      if (lies_on(box, host.box)) build.draft.join(id, host.id, JointKind::weld, axis::minus_z);
    }
  }
  return ids;
}

}  // namespace fitup::plan

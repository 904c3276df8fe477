// How wide what a flat cover is screwed to stands beside an opening.
// Entry: landing_width_mm, landing_thickness_mm.
#include "plan/landing_width.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include "fitup/sheet_fit.h"
#include "plan/nut_strip.h"
#include "plan/outward_landing.h"
#include "plan/plate/joints.h"
#include "plan/plate/shell.h"
#include "plan/rule_steps.h"
#include "plan/plate/walls.h"

namespace fitup::plan {

namespace {

constexpr double edge_distance = 1.2;  // of a hole's centre from an edge, in hole diameters (common practice)

constexpr double beside_strip_mm = 1;   // from what holds the screws to what stands beside it
constexpr double beside_frame_mm = 0.5;  // to either edge of an outward ring: it touches no member, and hangs over no edge

// At either edge: of an inward one the reliefs of fingers, or what keeps a nut off the upright.
double kept_mm(const Build& build, const FaceSpec& face, double thick_mm) {
  if (*face.landing == Landing::outward) return beside_frame_mm;
  if (!is_of_plates(build.box_spec())) return beside_strip_mm;
  return 2 * plate::relief_mm(thick_mm, build.spec.cutter.rules.inner_radius_mm);
}

double thickness_mm(const Build& build, const FaceSpec& face) {
  if (*face.landing == Landing::outward) return landing_strip_mm(build);
  return is_of_plates(build.box_spec()) ? plate::sheets_of(build).t_mm : build.shell.landing_mm;
}

// Of what is cut through it; a thread is drilled.
double hole_mm(const ScrewSpec& screws, const Thread& thread, double thick_mm) {
  if (*screws.fixing == ScrewFixing::nut_strip) return thread.clear_medium_mm;
  const auto hold = hold_of(*screws.fixing, thread, thick_mm);
  return hold && hold->hole == HoleKind::clear ? hold->hole_mm : 0;
}

}  // namespace

double landing_width_mm(const Build& build, Face face) {
  const FaceSpec& spec = build.box_spec().face(face);
  const double stated = spec.landing_width->mm();
  if (spec.landing_width.given || *spec.closed_by != Closure::cover || *spec.style != CoverStyle::flat) return stated;
  const Thread& thread = *tables::find_thread(*spec.screws.thread);
  const double thick = thickness_mm(build, spec);
  const double web = build.spec.cutter.rules.smallest_web * thick;
  const double beside_seal = *spec.landing == Landing::outward ? 2 * edge_distance * thread.clear_medium_mm : 0;
  const double hole = hole_mm(spec.screws, thread, thick);
  const double kept = kept_mm(build, spec, thick);
  const double seat = seat_behind_mm(build, spec.screws, thick);
  const bool relieved = is_of_plates(build.box_spec()) && *spec.landing == Landing::inward;
  const double cut = hole + 2 * web + (relieved ? 2 * kept : 0);
  const double needed = std::max({seat > 0 ? seat + 2 * kept : 0, hole > 0 ? cut : 0, beside_seal});
  return std::max(stated, steps_of(thread).place_up(needed + seal_end_mm(spec)));
}

double landing_thickness_mm(const Build& build, double member_mm) {
  constexpr double same_thickness_mm = 0.02;  // of sheet, as checks/cut_judge.cpp has it
  CutRules rules = build.spec.cutter.rules;
  // Where the shop has both kinds, of the spec's own; what stands there as the other kind is as good.
  const std::vector<double> any = tables::on_shelf_mm(material_of(build), rules);
  const auto is_it = [&](double t) { return std::abs(t - member_mm) <= same_thickness_mm; };
  if (any.empty() || std::any_of(any.begin(), any.end(), is_it)) return member_mm;
  if (rules.shelf == ShelfKind::both)
    rules.shelf = build.spec.units == UnitSystem::in_lb ? ShelfKind::gauge : ShelfKind::metric;
  for (const double t : tables::on_shelf_mm(material_of(build), rules)) {
    if (t > member_mm) return t;
  }
  return member_mm;
}

}  // namespace fitup::plan

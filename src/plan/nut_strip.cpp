// Tapped strips behind a row of screws, welded to what the screws pass.
// Entry: strip_hold, seat_behind_mm, add_nut_strips, least_engagement_mm.
#include "plan/nut_strip.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "fitup/tolerances.h"
#include "plan/face_axes.h"

namespace fitup::plan {

namespace {

constexpr double steel_diameters = 1;
constexpr double aluminium_diameters = 2;
constexpr double widths_per_thread = 3;  // of a strip (common practice)
constexpr double inch_mm = 25.4;

double thickness_step_mm(const Thread& thread) { return tables::is_unified(thread) ? inch_mm / 16 : 1; }
double width_step_mm(const Thread& thread) { return tables::is_unified(thread) ? inch_mm / 4 : 5; }

bool one_strip(const StripScrew& a, const StripScrew& b) {
  return a.host == b.host && a.row == b.row && norm(a.direction - b.direction) < tolerance::direction;
}

Box3 strip_box(const std::vector<StripScrew>& row) {
  const StripScrew& first = row.front();
  const double half = first.width_mm / 2;
  const Vec3 square{std::abs(first.direction.x), std::abs(first.direction.y), std::abs(first.direction.z)};
  const Vec3 beside = half * (Vec3{1, 1, 1} - square);
  Box3 box;
  for (const StripScrew& screw : row) {
    box.add(screw.back - beside);
    box.add(screw.back + beside + first.thickness_mm * first.direction);
  }
  return box;
}

void add_strip(Build& build, const std::vector<StripScrew>& row) {
  const StripScrew& first = row.front();
  Draft& draft = build.draft;
  const Origin origin{first.origin.key, first.origin.place, "frame"};
  const InstanceId strip = add_plate(build, {"NST01", "nut strip", Role::nut_strip, material_of(build)}, strip_box(row),
                                     first.direction, first.row + " strip", origin);
  draft.join(strip, first.host, JointKind::weld, Vec3{} - first.direction);
  const Thread& thread = *tables::find_thread(first.thread);
  for (const StripScrew& screw : row) {
    const RoundHole hole{screw.back, screw.direction, thread.tap_drill_mm, HoleKind::tapped, "tap " + thread.size};
    if (const auto problem = make_hole(build, strip, hole)) {
      say_no_room(build, first.origin.place, hole.diameter_mm, draft.instance(screw.screw).name, strip, *problem);
      return;
    }
    draft.join(screw.screw, strip, JointKind::thread, screw.direction, 0, thread.major_mm);
    draft.fasteners[screw.fastener].stack.push_back(strip);
  }
}

}  // namespace

double least_engagement_mm(const Thread& thread, const Material& material) {
  return (material.steel ? steel_diameters : aluminium_diameters) * thread.major_mm;
}

bool holds_thread_itself(const Thread& thread, const Material& material, double thick_mm) {
  return thick_mm >= least_engagement_mm(thread, material) - tolerance::contact_mm;
}

double seat_behind_mm(const Build& build, const ScrewSpec& screws, double thick_mm) {
  const Thread& thread = *tables::find_thread(*screws.thread);
  const Material& material = *tables::find_material(material_of(build));
  if (*screws.fixing == ScrewFixing::nut_strip) {
    return holds_thread_itself(thread, material, thick_mm) ? 0 : strip_hold(thread, &screws, material).seat_mm;
  }
  const auto hold = hold_of(*screws.fixing, thread, thick_mm);
  return hold ? hold->seat_mm : 0;
}

double reach_behind_mm(const Build& build, const ScrewSpec& screws, double thick_mm) {
  const Thread& thread = *tables::find_thread(*screws.thread);
  const Material& material = *tables::find_material(material_of(build));
  const bool strip = *screws.fixing == ScrewFixing::nut_strip && !holds_thread_itself(thread, material, thick_mm);
  const auto hold = strip ? strip_hold(thread, &screws, material) : hold_of(*screws.fixing, thread, thick_mm);
  return hold && hold->behind_mm > 0 ? hole_behind_mm(thread, *hold) / 2 : thread.major_mm / 2;
}

ScrewHold strip_hold(const Thread& thread, const ScrewSpec* screws, const Material& material) {
  double thick = rounded_up(least_engagement_mm(thread, material), thickness_step_mm(thread));
  double width = rounded_up(widths_per_thread * thread.major_mm, width_step_mm(thread));
  if (screws != nullptr && screws->strip_thickness) thick = (*screws->strip_thickness)->mm();
  if (screws != nullptr && screws->strip_width) width = (*screws->strip_width)->mm();
  return {.fixing = ScrewFixing::nut_strip,
          .hole_mm = thread.clear_medium_mm,
          .purpose = "clear " + thread.size,
          .noun = "a nut strip",
          .behind_mm = thick,
          .seat_mm = width,
          .across_mm = width,
          .screw_to_mm = thick,
          .engagement_mm = thick};
}

void add_nut_strips(Build& build) {
  std::vector<StripScrew> left = std::move(build.strip_screws);
  build.strip_screws.clear();
  while (!left.empty()) {
    const StripScrew first = left.front();
    const auto others =
        std::stable_partition(left.begin(), left.end(), [&](const StripScrew& s) { return one_strip(s, first); });
    add_strip(build, {left.begin(), others});
    left.erase(left.begin(), others);
  }
}

}  // namespace fitup::plan

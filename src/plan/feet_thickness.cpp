// Looks how low the steel hangs, then along what the shop has.
// Entry: thick_enough.
#include "plan/feet_thickness.h"

#include <algorithm>

#include <fmt/format.h>

#include "fitup/sheet_fit.h"
#include "fitup/tolerances.h"
#include "fitup/welded_sizes.h"
#include "plan/followed.h"
#include "plan/plate/mount_doublers.h"
#include "plan/plate/walls.h"
#include "plan/room.h"

namespace fitup::plan {

namespace {

// Below the frame's underside. Glands and hoses are led past what the feet stand on.
double hangs_mm(const Build& build) {
  double lowest = 0;
  for (const Taken& taken : taken_by_steel(build.draft)) {
    const Role role = build.draft.part(taken.id).role;
    if (role != Role::gland && role != Role::edge_strip) lowest = std::min(lowest, taken.box.low.z);
  }
  return -lowest;
}

}  // namespace

MountSpec thick_enough(Build& build, const MountSpec& feet) {
  MountSpec built = feet;
  if (feet.thickness.given || *feet.kind != MountKind::plate) return built;
  const double hangs = hangs_mm(build);
  const double lowest = hangs > tolerance::contact_mm ? hangs + tables::welded_length_permits_mm(hangs) : 0;
  const auto clears = [&](double t, double depth) {
    const double under = laid_on_mm(build.box_spec(), Face::bottom) + mount_doubler_mm(build, Face::bottom, t, false);
    return under + t >= depth - tolerance::contact_mm;
  };
  const auto reaches = [&](double t) { return clears(t, lowest); };
  if (reaches(feet.thickness->mm())) return built;
  // Where the shop has both kinds, of the bolt's.
  const bool inch = tables::is_unified(*tables::find_thread(*feet.thread));
  const std::vector<double> shelf =
      tables::on_shelf_mm(material_of(build), build.spec.cutter.rules, inch ? UnitSystem::in_lb : UnitSystem::mm_kg);
  auto thick = std::find_if(shelf.begin(), shelf.end(), reaches);
  // What only reaches past what hangs is better than nothing: how near it is, the check says.
  if (thick == shelf.end()) thick = std::find_if(shelf.begin(), shelf.end(), [&](double t) { return clears(t, hangs); });
  if (thick == shelf.end()) return built;
  built.thickness.value = Length::mm(*thick);
  note_feet_thickness(
      build, built.thickness.value,
      fmt::format("{} would leave what hangs below to carry the box", build.in_words(feet.thickness->mm())));
  return built;
}

}  // namespace fitup::plan

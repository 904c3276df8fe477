// The bolt through a foot or a lug.
// Entry: MountBolt, cutter_makes_slot.
#include "plan/mount_bolt.h"

#include <algorithm>

#include "diag/catalogue.h"
#include "fitup/tolerances.h"
#include "plan/room.h"
#include "plan/rule_steps.h"

namespace fitup::plan {

namespace {

constexpr double web_of_thickness = 1.5;  // steel between hole and end that no shop asks about (common practice)
constexpr double edge_distance = 1.2;     // of a hole's middle from an edge, in hole diameters (EN 1993-1-8, table 3.3)
constexpr double round_washer_mm = 2;     // of plate round the washer

}  // namespace

double MountBolt::hole_mm() const {
  switch (*spec_.clearance_hole) {
    case HoleClass::close: return thread().clear_close_mm;
    case HoleClass::medium: return thread().clear_medium_mm;
    case HoleClass::loose: break;
  }
  return thread().clear_loose_mm;
}

double MountBolt::socket_across_mm() const {
  return std::max(socket_mm(*tables::find_nut(*spec_.thread)), washer_mm());
}

double MountBolt::edge_mm() const { return edge_distance * hole_mm(); }

double MountBolt::to_end_mm(double thickness_mm) const {
  const double web = hole_mm() / 2 + web_of_thickness * thickness_mm;
  return rounded_up(std::max({edge_mm(), washer_mm() / 2 + round_washer_mm, web}), steps_of(thread()).place_mm);
}

bool cutter_makes_slot(Build& build, const MountSpec& spec, const std::string& key) {
  const double smallest = build.spec.cutter.rules.smallest_slot * spec.thickness->mm();
  const double width = MountBolt(spec).hole_mm();
  if (!spec.slot || width >= smallest - tolerance::snap_mm) return true;
  const double thinnest = width / build.spec.cutter.rules.smallest_slot;
  build.diagnostics.add(diag::say<"mount-misses">(
      spec.slot->place, key,
      fmt::format(
          "its slots are {} wide; in plates of {}{} the cutter makes none narrower than {} (cutter.smallest_slot "
          "times the thickness)",
          build.in_words(width), build.in_words(spec.thickness->mm()),
          spec.thickness.given ? "" : ", as thick as what hangs beside them asks for,", build.in_words(smallest)),
      fmt::format("leave the slot out, as a round hole is drilled, or choose {}.thickness = {}{}", key,
                  build.at_most(thinnest), spec.thickness.given ? "" : " and nothing that hangs lower")));
  return false;
}

}  // namespace fitup::plan

// Remedies for mounts that do not reach what is to hold them.
// Entry: nearer_to_plate_words, between_uprights_words.
#include "plan/mount_reach.h"

#include <algorithm>

#include <fmt/format.h>

#include "plan/face_axes.h"
#include "plan/upright_side.h"

namespace fitup::plan {

namespace {

std::string clearance_key(const Build& build, Face face) {
  return build.key(fmt::format("clearance.{}", to_text(face)));
}

/// Whether another item of the box is nearer to the face.
bool stands_behind(const Build& build, const MountReach& reach) {
  const int normal = axis_of(reach.face);
  const bool at_low = side_of(reach.face) == low;
  for (std::size_t i = 0; i < build.box.items.size(); ++i) {
    const Box3 other = item_box(build, i);
    const double nearer = at_low ? reach.at_mm - along(other.low, normal) : along(other.high, normal) - reach.at_mm;
    if (i != reach.item && nearer > tolerance::contact_mm) return true;
  }
  return false;
}

std::string nearest_only_words(const Build& build, const MountReach& reach) {
  const std::string& item = build.box.items[reach.item].item->name;
  return fmt::format(
      "only what stands nearest to that side reaches it: for that one write an item of its own, [item.{0}-held] with "
      "like "
      "= \"{0}\", and give mounts to it alone, or hold all at another face with item.{0}.mounts.face",
      item);
}

}  // namespace

std::string nearer_to_plate_words(const Build& build, const MountReach& reach) {
  if (stands_behind(build, reach)) return nearest_only_words(build, reach);
  const double most = thickest_filler_mm - reach.wall_mm;
  const std::string elsewhere =
      axis_of(reach.face) == 1
          ? "give on = \"uprights\""
          : fmt::format("hold it at another face with item.{}.mounts.face", build.box.items[reach.item].item->name);
  if (most >= 0) {
    return fmt::format("make {} {}{}, or {}", clearance_key(build, reach.face), most > 0 ? "at most " : "",
                       build.at_most(most), elsewhere);
  }
  return fmt::format("the frame alone takes {} there, whatever the clearance: {}", build.in_words(reach.wall_mm),
                     elsewhere);
}

std::string between_uprights_words(const Build& build, const MountReach& reach, double thick_mm, double wide_mm) {
  if (stands_behind(build, reach)) return nearest_only_words(build, reach);
  const std::string key = clearance_key(build, reach.face);
  const double least = std::max(0.0, thick_mm - reach.wall_mm);
  const double most = wide_mm - reach.wall_mm;
  if (most < least - tolerance::contact_mm) {
    const std::string wider = wider_uprights_words(build, std::max(thick_mm, reach.wall_mm));
    const bool thinner = reach.wall_mm <= wide_mm + tolerance::contact_mm;
    return thinner ? fmt::format("choose a strip_thickness of at most {}, or {}", build.at_most(wide_mm), wider)
                   : "choose " + wider;
  }
  if (most - least <= tolerance::contact_mm) {
    return fmt::format("{} must be {}, or choose {}", key, build.in_words(least),
                       "wider uprights (" + build.key("frame.uprights") + ")");
  }
  return fmt::format("choose {} between {} and {}", key, build.at_least(least), build.at_most(most));
}

}  // namespace fitup::plan

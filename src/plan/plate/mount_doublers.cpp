// Which feet and lugs of a box of plates stand on a doubler, and how far it reaches.
// Entry: mount_doubler_mm, mount_doubler_box, add_mount_doubler.
#include "plan/plate/mount_doublers.h"

#include <algorithm>

#include "fitup/tolerances.h"
#include "plan/face_axes.h"
#include "plan/plate/shell.h"
#include "plan/plate/walls.h"

namespace fitup::plan {

namespace {

constexpr double thicker = 1.5;  // than the sheet: metal that asks for a doubler (common practice)
constexpr double least_land_mm =
    3;  // of the face's edge stays free for the doubler's bead, or as much as that is thick

}  // namespace

double mount_doubler_mm(const Build& build, Face face, double metal_mm, bool is_angle) {
  if (!is_of_plates(build.box_spec())) return 0;
  const bool on_ring = build.box_spec().plates.base_ring.has_value();
  const plate::Sheets sheets = plate::sheets_of(build);
  if (face == Face::bottom && (on_ring || !sheets.legs_up)) return 0;
  if (is_angle && on_ring) return 0;
  return metal_mm > thicker * sheets.t_mm + tolerance::contact_mm ? sheets.t_mm : 0;
}

Box3 mount_doubler_box(const Build& build, Face face, const Box3& against, double thickness_mm) {
  const int square = axis_of(face);
  const double border = plate::sheets_of(build).border_mm;
  const double land = std::max(least_land_mm, thickness_mm);
  const bool open = plate::is_open(build, face);
  Box3 box;
  Vec3 from;
  Vec3 to;
  for (int axis = 0; axis < 3; ++axis) {
    const double size = along(build.shell.size, axis);
    double low_mm = land;
    double high_mm = size - land;
    if (axis == square) {
      const double face_mm = side_of(face) == low ? 0 : size;
      along(from, axis) = face_mm;
      along(to, axis) = face_mm + (side_of(face) == low ? -thickness_mm : thickness_mm);
      continue;
    }
    const double begins = along(against.low, axis);
    const double ends = along(against.high, axis);
    if (open && ends <= border + tolerance::contact_mm) high_mm = border - land;
    if (open && begins >= size - border - tolerance::contact_mm) low_mm = size - border + land;
    along(from, axis) = std::max(low_mm, begins - beside_mount_mm);
    along(to, axis) = std::min(high_mm, ends + beside_mount_mm);
  }
  box.add(from);
  box.add(to);
  return box;
}

InstanceId add_mount_doubler(Build& build, Face face, const Box3& box, const std::string& of, const Origin& origin) {
  const std::string name = face == Face::bottom ? "doubler under a foot" : "doubler under a lug";
  return add_plate(build, {"DBL01", name, Role::doubler, material_of(build)}, box, unit(axis_of(face), high),
                   "doubler under " + of, origin);
}

}  // namespace fitup::plan

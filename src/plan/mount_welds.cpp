// What a foot or a lug is welded to.
// Entry: weld_mount, longest_begins_mm.
#include "plan/mount_welds.h"

#include <algorithm>
#include <set>

#include "fitup/tolerances.h"
#include "plan/face_axes.h"
#include "plan/plate/walls.h"
#include "plan/support.h"

namespace fitup::plan {

namespace {

Box3 shared(const Box3& a, const Box3& b) {
  return {{std::max(a.low.x, b.low.x), std::max(a.low.y, b.low.y), std::max(a.low.z, b.low.z)},
          {std::min(a.high.x, b.high.x), std::min(a.high.y, b.high.y), std::min(a.high.z, b.high.z)}};
}

bool is_solid(const Box3& box) {
  const Vec3 size = box.size();
  return std::min({size.x, size.y, size.z}) > tolerance::contact_mm;
}

// A host's box may hold more than the legs of its member. A root is no place for a bead.
bool lies_on(const Box3& box, const Host& host, Vec3 inward, const std::vector<Taken>& taken) {
  return std::any_of(taken.begin(), taken.end(), [&](const Taken& t) {
    if (t.id != host.id || t.root) return false;
    const Box3 there = shared(t.box, host.box);
    return is_solid(there) && direction_to(box, there) == inward;
  });
}

bool touches(const Box3& a, const Box3& b) {
  const Vec3 size = shared(a, b).size();
  return std::min({size.x, size.y, size.z}) >= -tolerance::contact_mm;
}

bool takes_a_bead(Role role) {
  return role == Role::face_plate || role == Role::wall || role == Role::upright || role == Role::landing ||
         role == Role::doubler;
}

// A plate between the members or behind them is nothing to lie on.
bool stands_out(const Build& build, Face face) {
  const FaceSpec& f = build.box_spec().face(face);
  return *f.closed_by != Closure::plate || *f.set == PlateSet::outside;
}

}  // namespace

bool weld_mount(Build& build, const MountPlace& mount, const std::vector<Taken>& taken) {
  const Vec3 inward = Vec3{} - unit(axis_of(mount.face), side_of(mount.face));
  std::set<InstanceId> joined;
  const auto join = [&](InstanceId other, JointKind kind, Vec3 normal) {
    if (joined.insert(other).second) build.draft.join(mount.id, other, kind, normal);
  };
  const auto& panel = build.panels[static_cast<std::size_t>(mount.face)];
  // The floor of a box of plates stands up between its walls.
  const bool on_panel =
      panel && stands_out(build, mount.face) && std::any_of(taken.begin(), taken.end(), [&](const Taken& t) {
        return t.id == *panel && direction_to(mount.against, t.box) == inward;
      });
  if (on_panel) {
    join(*panel, JointKind::weld, inward);
  } else {
    for (const Host& host : build.shell.beside[static_cast<std::size_t>(mount.face)]) {
      if (lies_on(mount.against, host, inward, taken)) join(host.id, JointKind::weld, inward);
    }
  }
  bool held = !joined.empty();
  for (const Taken& t : taken) {
    for (const Box3& box : mount.all) {
      if (!touches(box, t.box)) continue;
      const auto direction = direction_to(box, t.box);
      const bool weld = direction && takes_a_bead(build.draft.part(t.id).role);
      held = held || (weld && direction == inward);
      join(t.id, weld ? JointKind::weld : JointKind::slip, direction.value_or(inward));
    }
  }
  return held;
}

double longest_begins_mm(const Build& build, Face face, int axis, Side end) {
  const bool of_plates = is_shell_wall(build.box_spec(), face);
  if (build.panels[static_cast<std::size_t>(face)] && stands_out(build, face) && !of_plates) return 0;
  double longest = 0;
  double begins = 0;
  for (const Host& host : build.shell.beside[static_cast<std::size_t>(face)]) {
    const double length = along(host.box.size(), axis);
    if (length <= longest + tolerance::contact_mm) continue;
    longest = length;
    begins = end == low ? along(host.box.low, axis) : along(build.shell.size, axis) - along(host.box.high, axis);
  }
  return begins;
}

}  // namespace fitup::plan

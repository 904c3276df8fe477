// What stands in a face's opening for good besides the frame: what holds the covers' screws, and the sill.
// Entry: opening_past_nuts, sill_depth_mm, lower_sill.
#include <algorithm>
#include <array>

#include "fitup/tolerances.h"
#include "plan/clear_rows.h"
#include "plan/opening.h"

namespace fitup::plan {

namespace {

constexpr double contact = tolerance::contact_mm;

double along(Vec3 v, int axis) { return axis == 0 ? v.x : axis == 1 ? v.y : v.z; }

// Loose nuts go on with the cover.
bool holds_for_good(const Build& build, InstanceId id) {
  const Role role = build.draft.part(id).role;
  return build.draft.instance(id).group == "frame" &&
         (role == Role::nut || role == Role::insert || role == Role::nut_strip);
}

std::vector<Box3> nuts_of(const Build& build) {
  std::vector<Box3> boxes;
  for (InstanceId id = 0; id < build.draft.size(); ++id) {
    if (holds_for_good(build, id)) boxes.push_back(box_around(build.draft, id));
  }
  return boxes;
}

// Is it on the way from outside of that face to there?
bool on_the_way(const Box3& box, Face face, double to_mm) {
  const int axis = face == Face::left || face == Face::right ? 0 : face == Face::top || face == Face::bottom ? 2 : 1;
  const bool upward = face == Face::front || face == Face::left || face == Face::bottom;
  return upward ? along(box.low, axis) < to_mm - contact : along(box.high, axis) > to_mm + contact;
}

// It stands at the side from which it takes least.
void take_off(Opening& opening, const Box3& nut) {
  double least = 1e9;
  double* edge = nullptr;
  double to = 0;
  for (const std::size_t i : {0U, 1U}) {
    const double from_low = along(nut.high, opening.axes[i]) - opening.low_mm[i];
    const double from_high = opening.high_mm[i] - along(nut.low, opening.axes[i]);
    if (from_low <= contact || from_high <= contact) return;
    if (from_low < least) least = from_low, edge = &opening.low_mm[i], to = along(nut.high, opening.axes[i]);
    if (from_high < least) least = from_high, edge = &opening.high_mm[i], to = along(nut.low, opening.axes[i]);
  }
  *edge = to;
}

}  // namespace

Opening opening_past_nuts(const Build& build, Face face, double to_mm) {
  const Opening whole = opening_of(build, face);
  Opening left = whole;
  for (const Box3& nut : nuts_of(build)) {
    if (!on_the_way(nut, face, to_mm)) continue;
    Opening one = whole;
    take_off(one, nut);
    for (const std::size_t i : {0U, 1U}) {
      left.low_mm[i] = std::max(left.low_mm[i], one.low_mm[i]);
      left.high_mm[i] = std::min(left.high_mm[i], one.high_mm[i]);
    }
  }
  return left;
}

double sill_depth_mm(const Build& build, Face face, double low_z) {
  const Side depth = face == Face::front ? low : high;
  const Shell& shell = build.shell;
  const double top = shell.opening_z[low];
  if (top <= low_z + contact) return 0;
  const auto behind = [&](const Box3& box) { return depth == low ? box.high.y : shell.size.y - box.low.y; };
  double deep = behind(shell.bottom[depth].box);
  for (const Box3& nut : nuts_of(build)) {
    const bool at_sill = nut.high.z > low_z + contact && nut.low.z < top - contact;
    const bool at_face = behind(nut) < shell.size.y / 2 && nut.low.x > shell.upright[depth][low].box.high.x &&
                         nut.high.x < shell.upright[depth][high].box.low.x;
    if (at_sill && at_face) deep = std::max(deep, behind(nut));
  }
  return deep;
}

std::string lower_sill(const Build& build) {
  const BoxSpec& box = build.box_spec();
  const bool up = *box.frame.bottom_legs == Legs::up;
  return up && *box.plates.floor == FloorKind::flat ? "set " + build.key("frame.bottom_legs") + " to \"down\"" : "";
}

}  // namespace fitup::plan

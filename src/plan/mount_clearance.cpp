// How far a mounting hole stands from where the leg under it takes it, and from where it passes it.
// Entry: clearance_for_mount.
#include "plan/mount_clearance.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include <fmt/format.h>

#include "fitup/tables.h"
#include "plan/face_axes.h"
#include "plan/item_holes.h"

namespace fitup::plan {

namespace {

constexpr double step_mm = 0.5;
constexpr double past_mm = 1;  // between a screw's head and a leg

// Nearer to the face the hole is in the leg's flat.
std::optional<double> into_leg_mm(Build& build, InstanceId id, RoundHole hole, Vec3 outward, double most_mm) {
  const Part as_it_is = build.draft.part(id);
  for (double off = step_mm; off <= most_mm; off += step_mm) {
    hole.point = hole.point + step_mm * outward;
    const bool fits = !make_hole(build, id, hole);
    build.draft.part(id) = as_it_is;
    if (fits) return off;
  }
  return std::nullopt;
}

const Measured& clearance_of(const ClearanceSpec& all, Face face) {
  switch (face) {
    case Face::left: return all.left;
    case Face::right: return all.right;
    case Face::front: return all.front;
    default: return all.back;
  }
}

}  // namespace

std::string clearance_for_mount(Build& build, const ScrewPlace& place, InstanceId id, const RoundHole& hole) {
  const auto* member = std::get_if<Member>(&build.draft.part(id).form);
  if (member == nullptr || place.origin.group != "items" || std::abs(place.direction.z) < 0.5) return {};
  const Pose& pose = build.draft.pose(id);
  const int across = std::abs(pose.z().x) > 0.5 ? 1 : 0;
  const double at = along(hole.point, across);
  const Side side = at < along(build.shell.size, across) / 2 ? low : high;
  const Face face = across == 0 ? (side == low ? Face::left : Face::right) : (side == low ? Face::front : Face::back);
  const double now = clearance_of(build.box_spec().clearance, face)->mm();
  const Vec3 outward = -1.0 * unit(across, side == low ? high : low);
  const double head = tables::find_button_head(place.thread)->head_mm / 2 + past_mm;
  const double leg = std::max(member->section.leg_a_mm, member->section.leg_b_mm);
  const double from_face = side == low ? at : along(build.shell.size, across) - at;
  const double more = leg + head - from_face;
  const auto less = into_leg_mm(build, id, hole, outward, now);
  const std::string key = build.key(fmt::format("clearance.{}", to_text(face)));
  const std::string past = fmt::format("at least {}", build.at_least(now + more));
  if (!less) return fmt::format("make {} {}, ", key, past);
  return fmt::format("make {} at most {} or {}, ", key, build.at_most(now - *less), past);
}

}  // namespace fitup::plan

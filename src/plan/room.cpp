// Which room is taken, and what a spanner needs to reach a bolt.
// Entry: taken_by_steel, first_in, socket_mm, room_over, angle_pose.
#include "plan/room.h"

#include <algorithm>

#include "fitup/tolerances.h"
#include "tables/tools.h"

namespace fitup::plan {

namespace {

bool goes_in_last(Role role) { return role == Role::item || role == Role::rod; }

bool shares_room(const Box3& a, const Box3& b) {
  const auto some = [](double a_low, double a_high, double b_low, double b_high) {
    return std::min(a_high, b_high) - std::max(a_low, b_low) > tolerance::contact_mm;
  };
  return some(a.low.x, a.high.x, b.low.x, b.high.x) && some(a.low.y, a.high.y, b.low.y, b.high.y) &&
         some(a.low.z, a.high.z, b.low.z, b.high.z);
}

// Where an angle's legs and its root are, as if it ended square; the root last.
std::vector<Box3> legs_and_root(const Member& m) {
  const Section& s = m.section;
  const double end = m.length_mm;
  const double root = s.thickness_mm + s.root_radius_mm;
  return {{{0, 0, 0}, {s.leg_a_mm, s.thickness_mm, end}},
          {{0, 0, 0}, {s.thickness_mm, s.leg_b_mm, end}},
          {{0, 0, 0}, {root, root, end}}};
}

void add_pieces(std::vector<Taken>& out, const Draft& draft, InstanceId id) {
  const Part& part = draft.part(id);
  const Pose& pose = draft.instance(id).pose;
  const auto* member = std::get_if<Member>(&part.form);
  if (member == nullptr || member->section.shape != SectionShape::angle) {
    for (const Prism& prism : body_of(part).outer) {
      out.push_back({id, Prism{prism.profile, pose * prism.pose, prism.length_mm}.bounds()});
    }
    return;
  }
  for (const Box3& box : legs_and_root(*member)) {
    Box3 placed;
    placed.add(pose.point(box.low));
    placed.add(pose.point(box.high));
    out.push_back({id, placed});
  }
  out.back().root = true;
}

}  // namespace

std::vector<Taken> taken_by_steel(const Draft& draft) {
  std::vector<Taken> out;
  for (InstanceId id = 0; id < draft.size(); ++id) {
    if (!goes_in_last(draft.part(id).role)) add_pieces(out, draft, id);
  }
  return out;
}

std::vector<Taken> taken_by_items(const Draft& draft) {
  std::vector<Taken> out;
  for (InstanceId id = 0; id < draft.size(); ++id) {
    if (draft.part(id).role == Role::item) add_pieces(out, draft, id);
  }
  return out;
}

std::optional<InstanceId> first_in(const std::vector<Taken>& taken, const Box3& box,
                                   const std::vector<InstanceId>& but) {
  for (const Taken& t : taken) {
    if (shares_room(t.box, box) && std::find(but.begin(), but.end(), t.id) == but.end()) return t.id;
  }
  return std::nullopt;
}

double socket_mm(const HexNut& nut) { return tables::socket_outside_mm(nut.across_flats_mm); }

Box3 room_over(Vec3 from, Vec3 direction, double across_mm, double length_mm) {
  const double half = across_mm / 2;
  const auto square = [half](double along) { return std::abs(along) > 0.5 ? 0.0 : half; };
  const Vec3 beside{square(direction.x), square(direction.y), square(direction.z)};
  Box3 box;
  box.add(from - beside);
  box.add(from + beside);
  box.add(from + length_mm * direction - beside);
  box.add(from + length_mm * direction + beside);
  return box;
}

Pose angle_pose(Vec3 a, Vec3 b, Vec3 leg_1, Vec3 leg_2) {
  const Vec3 along = (1 / norm(b - a)) * (b - a);
  return dot(cross(leg_1, leg_2), along) > 0 ? Pose::at(a, leg_1, leg_2) : Pose::at(a, leg_2, leg_1);
}

}  // namespace fitup::plan

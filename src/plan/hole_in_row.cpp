// Holes of rows by rule against the other holes of what they go through.
// Entry: keep_from_other_holes.
#include "plan/hole_in_row.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <vector>

#include "fitup/tolerances.h"
#include "plan/clear_rows.h"

namespace fitup::plan {

namespace {

// Another hole, in the axes of its part: a circle of that radius, or what is around it as a box.
struct Other {
  Vec3 low;
  Vec3 high;
  double radius_mm = 0;
};

Other circle(Vec3 at, double diameter_mm) { return {at, at, diameter_mm / 2}; }

std::vector<Other> holes_of(const Flat& flat) {
  std::vector<Other> out;
  for (const Loop& loop : flat.profile.holes) {
    if (const auto round = loop.as_circle()) {
      out.push_back(circle({round->centre.x, round->centre.y, 0}, 2 * round->radius));
      continue;
    }
    const Box2 box = loop.bounds();
    out.push_back({{box.low.x, box.low.y, 0}, {box.high.x, box.high.y, 0}, 0});
  }
  for (const DrilledHole& d : flat.drilled) out.push_back(circle({d.at.x, d.at.y, 0}, d.diameter_mm));
  return out;
}

std::vector<Other> holes_of(const Member& m, Leg leg) {
  std::vector<Other> out;
  for (const MemberHole& h : m.holes) {
    if (h.leg != leg) continue;
    Vec3 at{0, 0, h.along_mm};
    (leg == Leg::a ? at.x : at.y) = h.across_mm;
    const Vec3 half{0, 0, h.slot_mm / 2};
    out.push_back({at - half, at + half, h.diameter_mm / 2});
  }
  return out;
}

std::vector<Other> other_holes(const Part& part, Vec3 through) {
  if (const auto* flat = std::get_if<Flat>(&part.form)) return holes_of(*flat);
  const auto* member = std::get_if<Member>(&part.form);
  return member == nullptr ? std::vector<Other>{} : holes_of(*member, std::abs(through.y) > 0.5 ? Leg::a : Leg::b);
}

// Between what is cut as much as the shop asks for.
double between_mm(const Build& build, const Part& part, const RoundHole& hole) {
  const auto* flat = std::get_if<Flat>(&part.form);
  if (flat == nullptr) return web_mm(std::get<Member>(part.form).section.thickness_mm);
  const double t = flat->thickness_mm;
  const bool cut = hole.kind == HoleKind::clear;
  return cut ? cut_web_mm(build, t) : web_mm(t);
}

// How far the hole's middle must stay off along the row, beyond the other's ends; none where it is wide enough of it.
std::optional<double> reach_mm(const Other& other, Vec3 at, Vec3 run, Vec3 through, double needed) {
  const Vec3 across = cross(run, through);
  const double low = std::min(dot(other.low, across), dot(other.high, across));
  const double high = std::max(dot(other.low, across), dot(other.high, across));
  const double off = std::max({low - dot(at, across), dot(at, across) - high, 0.0});
  const double apart = other.radius_mm + needed;
  if (off >= apart - tolerance::contact_mm) return std::nullopt;
  return std::sqrt(apart * apart - off * off);
}

}  // namespace

void keep_from_other_holes(Build& build, const ScrewPlace& place, InstanceId id, const RoundHole& hole) {
  if (place.screws == nullptr || norm(place.slot_along) < 0.5) return;
  const Part& part = build.draft.part(id);
  const Pose& pose = build.draft.pose(id);
  const Vec3 at = pose.local(hole.point);
  const Vec3 through = pose.inverse().turn(hole.direction);
  const Vec3 run = pose.inverse().turn(place.slot_along);
  const auto others = other_holes(part, through);
  if (others.empty()) return;
  const double needed = hole.diameter_mm / 2 + between_mm(build, part, hole);
  const double stands = dot(place.seat, place.slot_along);
  for (const Other& other : others) {
    const auto reach = reach_mm(other, at, run, through, needed);
    if (!reach) continue;
    const double from = std::min(dot(other.low, run), dot(other.high, run)) - *reach - dot(at, run);
    const double to = std::max(dot(other.low, run), dot(other.high, run)) + *reach - dot(at, run);
    if (from >= -tolerance::contact_mm || to <= tolerance::contact_mm) continue;
    add_row_gap(build, {place.name.substr(0, place.name.rfind(' ')), stands + from, stands + to});
  }
}

}  // namespace fitup::plan

// Holes of feet and lugs from one datum.
// Entry: bolt_holes, bolt_hole_table.
#include "bench/bolt_down.h"

#include <fmt/format.h>

#include <algorithm>

namespace fitup::bench {
namespace {

Vec2 size_of(const Loop& hole) {
  const Vec2 size = hole.bounds().size();
  return {std::max(size.x, size.y), std::min(size.x, size.y)};
}

void add_holes(std::vector<BoltHole>& out, InstanceId id, const Pose& pose, const Flat& flat) {
  for (const Loop& hole : flat.profile.holes) {
    const Vec2 middle = hole.bounds().middle();
    out.push_back({id, pose.point({middle.x, middle.y, 0.5 * flat.thickness_mm}), size_of(hole)});
  }
}

void add_holes(std::vector<BoltHole>& out, InstanceId id, const Pose& pose, const Member& member) {
  const double half = 0.5 * member.section.thickness_mm;
  for (const MemberHole& hole : member.holes) {
    const Vec3 local =
        hole.leg == Leg::a ? Vec3{hole.across_mm, half, hole.along_mm} : Vec3{half, hole.across_mm, hole.along_mm};
    out.push_back({id, pose.point(local), {hole.diameter_mm + hole.slot_mm, hole.diameter_mm}});
  }
}

}  // namespace

std::vector<BoltHole> bolt_holes(const Plan& plan) {
  std::vector<BoltHole> out;
  for (InstanceId id = 0; id < plan.instances.size(); ++id) {
    const Instance& instance = plan.instances[id];
    const Part& part = plan.parts[instance.part];
    if (part.role != Role::foot && part.role != Role::lug) continue;
    if (const auto* flat = std::get_if<Flat>(&part.form)) add_holes(out, id, instance.pose, *flat);
    if (const auto* member = std::get_if<Member>(&part.form)) add_holes(out, id, instance.pose, *member);
  }
  const Vec3 datum = plan.frames.empty() ? Vec3{} : plan.frames.front().space.low;
  for (BoltHole& hole : out) hole.from_datum = hole.from_datum - datum;
  return out;
}

Table bolt_hole_table(const Plan& plan, const std::vector<BoltHole>& holes, const output::PaperUnits& units) {
  const std::string unit(units.length());
  Table table{{{"hole of"}, {"size " + unit}, {"from the left"}, {"from the front"}, {"from below"}}, {}};
  for (const BoltHole& hole : holes) {
    const Instance& instance = plan.instances[hole.part];
    const std::string size = hole.size.x - hole.size.y < 1e-6
                                 ? units.length(hole.size.x)
                                 : fmt::format("{} x {}", units.length(hole.size.x), units.length(hole.size.y));
    table.rows.push_back({{plan.parts[instance.part].mark + " " + instance.name, size, units.length(hole.from_datum.x),
                           units.length(hole.from_datum.y), units.length(hole.from_datum.z)}});
  }
  return table;
}

}  // namespace fitup::bench

// Puts the space that the spec states round the finished plan.
// Entry: space_round.
#include "plan/space.h"

#include <fmt/format.h>

namespace fitup::plan {

namespace {

Vec3 in_mm(const Lengths<3>& lengths) { return {(*lengths)[0].mm(), (*lengths)[1].mm(), (*lengths)[2].mm()}; }

// The low corner of what is so large, of which `at` says where it stands, be it from the other side.
Vec3 low_corner(Vec3 at, const CountedFrom& from, Vec3 size, Vec3 space) {
  if (from.right) at.x = space.x - at.x - size.x;
  if (from.back) at.y = space.y - at.y - size.y;
  return at;
}

Box3 all_that_stands(const Plan& plan) {
  Box3 all;
  for (const Instance& instance : plan.instances) {
    const Part& part = plan.parts[instance.part];
    if (part.source == Source::printed) continue;
    for (Prism prism : body_of(part).outer) {
      prism.pose = instance.pose * prism.pose;
      all.add(prism.bounds());
    }
  }
  return all;
}

// The corner of the space in the plan's coordinates.
Vec3 corner_of(const SpaceSpec& spec, Vec3 size, const Plan& plan) {
  if (spec.at) return -1 * low_corner(in_mm(*spec.at), spec.at_from, plan.frame_size, size);
  const Box3 whole = all_that_stands(plan);
  return {whole.middle().x - size.x / 2, whole.middle().y - size.y / 2, whole.low.z};
}

}  // namespace

std::optional<Space> space_round(const Spec& spec, const Plan& plan) {
  if (!spec.space) return std::nullopt;
  const SpaceSpec& stated = *spec.space;
  const Vec3 size = in_mm(stated.size);
  const Vec3 corner = corner_of(stated, size, plan);
  Space space;
  space.box = {corner, corner + size};
  const auto within = [&](std::size_t i) { return stated.size_within[i] ? stated.size_within[i]->mm() : 0; };
  space.within = {within(0), within(1), within(2)};
  space.play_mm = stated.play->mm();
  space.placed = stated.at.has_value();
  space.place = stated.size.place;
  for (std::size_t i = 0; i < stated.in_the_way.size(); ++i) {
    const InTheWay& thing = stated.in_the_way[i];
    const Vec3 own = in_mm(thing.size);
    const Vec3 low = corner + low_corner(in_mm(thing.at), thing.at_from, own, size);
    space.taken.push_back({{low, low + own}, *thing.why, fmt::format("space.in_the_way.{}", i + 1), thing.at.place});
  }
  return space;
}

}  // namespace fitup::plan

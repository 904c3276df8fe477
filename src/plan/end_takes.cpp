// Obstacles as boxes and root fillets in a leg's own coordinates, and what of the leg they touch.
// Entry: takes_of_leg.
#include "plan/end_takes.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include "plan/section_cut.h"

namespace fitup::plan {

namespace {

// Leg coordinates: across the leg from the heel edge, through its thickness from the outer face, along the member.
enum Axis : std::size_t { across = 0, through = 1, along = 2 };
using Triple = std::array<double, 3>;
using Region = std::array<Range, 3>;

Triple in_leg(Leg leg, Vec3 p) { return leg == Leg::a ? Triple{p.x, p.y, p.z} : Triple{p.y, p.x, p.z}; }

Region region(Leg leg, const Pose& to_member, Vec3 low, Vec3 high) {
  const Triple a = in_leg(leg, to_member.point(low));
  const Triple b = in_leg(leg, to_member.point(high));
  Region r;
  for (std::size_t i = 0; i < 3; ++i) r[i] = {std::min(a[i], b[i]), std::max(a[i], b[i])};
  return r;
}

double root_radius(const Section& section) { return section.shape == SectionShape::angle ? section.root_radius_mm : 0; }

// A leg of the member and what has been taken from it so far.
struct Taking {
  const Member& member;
  Leg leg;
  std::size_t obstacle;
  LegTakes& out;

  void add(Range over, const Range& run) const {
    over.low = std::max(over.low, 0.0);
    over.high = std::min(over.high, width_mm(member.section, leg));
    if (over.high - over.low <= same_place_mm || !run.meets({0, member.length_mm})) return;
    out.takes.push_back({over, run, obstacle});
  }

  void from_plate(const Region& box) const {
    if (box[through].meets({0, member.section.thickness_mm})) add(box[across], box[along]);
  }

  // Only what the box touches of the member's own root fillet; the other leg loses its share in its own turn.
  void from_own_fillet(const Region& box) const {
    const double t = member.section.thickness_mm;
    const double r = root_radius(member.section);
    if (r <= 0 || !box[through].meets({t, t + r})) return;
    const double reach = t + fillet_depth_mm(r, box[through].low - t);
    add({std::max(t, box[across].low), std::min(reach, box[across].high)}, box[along]);
  }
};

std::vector<Region> grown_legs(Leg leg, const Pose& to_member, const Obstacle& o, double gap) {
  const Section& s = o.section;
  const double end = o.length_mm + gap;
  const auto box = [&](double x, double y) { return region(leg, to_member, {-gap, -gap, -gap}, {x, y, end}); };
  const double t = s.thickness_mm + gap;
  const bool angle = s.shape == SectionShape::angle;
  if (angle && o.lapped) {
    const double beyond_root = t + s.root_radius_mm;
    const bool lies_on_a = std::abs(to_member.turn(axis::x).z) > 0.5;
    return {lies_on_a ? box(beyond_root, s.leg_b_mm + gap) : box(s.leg_a_mm + gap, beyond_root)};
  }
  std::vector<Region> out{box(s.leg_a_mm + gap, t)};
  if (angle) out.push_back(box(t, s.leg_b_mm + gap));
  return out;
}

// The obstacle's root fillet: the corner its two faces make, the way it opens, and how far it runs.
struct GrownRoot {
  Triple corner{};
  Triple sign{};
  Axis axis = along;
  Range run;
  double radius = 0;

  [[nodiscard]] Range open(Axis a, double depth) const {
    const double other = corner[a] + sign[a] * depth;
    return {std::min(corner[a], other), std::max(corner[a], other)};
  }
  /// How far the fillet reaches along `a` at the nearest place in `slab` through the leg's thickness.
  [[nodiscard]] double depth_over(const Range& slab) const {
    const double from = sign[through] > 0 ? slab.low - corner[through] : corner[through] - slab.high;
    return fillet_depth_mm(radius, from);
  }
};

std::optional<GrownRoot> grown_root(Leg leg, const Pose& to_member, const Obstacle& o, double gap) {
  const double radius = root_radius(o.section) - gap;
  if (o.lapped || radius <= same_place_mm) return std::nullopt;
  const double c = o.section.thickness_mm + gap;
  GrownRoot g;
  g.radius = radius;
  g.corner = in_leg(leg, to_member.point({c, c, 0}));
  g.sign = in_leg(leg, to_member.turn({1, 1, 0}));
  const Triple run = in_leg(leg, to_member.turn(axis::z));
  for (const Axis a : {across, through, along}) {
    if (std::abs(run[a]) > 0.5) g.axis = a;
  }
  g.run = region(leg, to_member, {c, c, -gap}, {c, c, o.length_mm + gap})[g.axis];
  return g;
}

// Seen end-on it is a rounded corner in the leg's plane, if it meets the plate or the member's own root there.
void take_end_on(const Taking& from, const GrownRoot& g) {
  const double t = from.member.section.thickness_mm;
  const double r = root_radius(from.member.section);
  const Range over = g.open(across, g.radius);
  const double own = fillet_depth_mm(r, std::max(t, over.low) - t);
  if (!over.meets({0, width_mm(from.member.section, from.leg)})) return;
  if (!g.run.meets({0, t}) && !(r > 0 && over.high > t && g.run.meets({t, t + own}))) return;
  if (!g.open(along, g.radius).meets({0, from.member.length_mm})) return;
  from.out.roots.push_back({g.corner[across], g.corner[along], g.sign[across] > 0 ? 1.0 : -1.0,
                            g.sign[along] > 0 ? 1.0 : -1.0, g.radius, from.obstacle});
}

// Seen from the side it is a box, as deep as the fillet is at the plate's (or the own root's) nearest plane.
void take_side_on(const Taking& from, const GrownRoot& g) {
  const double t = from.member.section.thickness_mm;
  const double r = root_radius(from.member.section);
  const Axis other = g.axis == across ? along : across;
  Region box;
  box[g.axis] = g.run;
  box[through] = g.open(through, g.radius);
  box[other] = g.open(other, g.depth_over({0, t}));
  if (box[other].high - box[other].low > same_place_mm) from.from_plate(box);
  box[other] = g.open(other, g.depth_over({t, t + r}));
  if (box[other].high - box[other].low > same_place_mm) from.from_own_fillet(box);
}

}  // namespace

LegTakes takes_of_leg(const Member& member, const Pose& pose, Leg leg, const std::vector<Obstacle>& obstacles,
                      double gap_mm) {
  LegTakes out;
  const Pose world_to_member = pose.inverse();
  for (std::size_t i = 0; i < obstacles.size(); ++i) {
    const Pose to_member = world_to_member * obstacles[i].pose;
    const Taking from{member, leg, i, out};
    for (const Region& box : grown_legs(leg, to_member, obstacles[i], gap_mm)) {
      from.from_plate(box);
      from.from_own_fillet(box);
    }
    const auto root = grown_root(leg, to_member, obstacles[i], gap_mm);
    if (root) root->axis == through ? take_end_on(from, *root) : take_side_on(from, *root);
  }
  return out;
}

}  // namespace fitup::plan

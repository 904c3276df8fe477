// Rings of angle: each member yields to the earlier ones, its ends derived or mitred.
// Entry: AngleRings.
#include "plan/framed/angle_rings.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include <fmt/format.h>

#include "diag/catalogue.h"
#include "fitup/tolerances.h"
#include "plan/framed/sawn.h"
#include "plan/mitre.h"

namespace fitup::plan {

namespace {

// The heel's line from a to b with the standing and the lying leg. A pose is proper: equal legs are taken in the
// order that makes it so, unequal ones are run from the other end.
Pose angle_pose(const Ring& ring, Vec3 a, Vec3 b, Vec3 leg_1, Vec3 leg_2) {
  const Vec3 along = (1 / norm(b - a)) * (b - a);
  if (ring.section->leg_a_mm != ring.section->leg_b_mm) {
    if (ring.standing_mm != ring.section->leg_a_mm) std::swap(leg_1, leg_2);
    return Pose::at(dot(cross(leg_1, leg_2), along) > 0 ? a : b, leg_1, leg_2);
  }
  return dot(cross(leg_1, leg_2), along) > 0 ? Pose::at(a, leg_1, leg_2) : Pose::at(a, leg_2, leg_1);
}

}  // namespace

Ring ring_of(const Section& angle, LongSide side) {
  const auto [shorter, longer] = std::minmax(angle.leg_a_mm, angle.leg_b_mm);
  const bool flat = side == LongSide::flat;
  return {&angle, flat ? longer : shorter, flat ? shorter : longer, 0, {}, {}};
}

AngleRings::AngleRings(Build& build, const Section& bottom, const Section& top, Origin origin)
    : rings{ring_of(bottom, *build.box_spec().frame.long_side), ring_of(top, *build.box_spec().frame.long_side)},
      up(*build.box_spec().frame.bottom_legs == Legs::up),
      corners(*build.box_spec().frame.corners),
      options{build.box_spec().frame.cope_gap->mm(), CornerKind::chamfer, build.spec.units},
      build_(build),
      origin_(std::move(origin)) {}

// Where the heels of a ring are: its standing legs hang from there, or stand up.
double AngleRings::heel_z(Side level) const {
  if (level == high) return build_.shell.size.z;
  return up ? 0 : bottom().standing_mm;
}

Vec3 AngleRings::standing_way(Side level) const { return level == low && up ? axis::z : axis::minus_z; }

// Their lying legs with the gap of a weld between them.
bool AngleRings::members_apart(const Sourced<std::string>& of_bottom, const Sourced<std::string>& of_top) {
  const Vec3 size = build_.shell.size;
  const bool top_wider = top().lying_mm > bottom().lying_mm;
  const double least = 2 * std::max(bottom().lying_mm, top().lying_mm) + options.gap_mm;
  const bool wide = size.x >= least - tolerance::contact_mm;
  if (wide && size.y >= least - tolerance::contact_mm) return true;
  const Sourced<std::string>& section = top_wider ? of_top : of_bottom;
  build_.diagnostics.add(diag::say<"members-meet">(section.place, build_.in_words(wide ? size.y : size.x),
                                                   wide ? "deep" : "wide", *section, build_.at_least(least)));
  return false;
}

bool AngleRings::add(Side level) {
  const Vec3 s = build_.shell.size;
  Ring& ring = rings[level];
  const double z = heel_z(level);
  const char* word = level == high ? "top" : "bottom";
  const int first = level == high ? 5 : 1;
  const auto line = [&](int number, const char* name, const char* side, Vec3 a, Vec3 b, Vec3 inward) {
    return MemberLine{fmt::format("ANG{:02}", first + number),
                      fmt::format("{} ring member", name),
                      fmt::format("{} ring member {}", word, side),
                      Role::ring_member,
                      angle_pose(ring, a, b, standing_way(level), inward),
                      norm(b - a)};
  };
  const std::array<MemberLine, 4> lines{line(0, "front", "front", {0, 0, z}, {s.x, 0, z}, axis::y),
                                        line(1, "back", "back", {0, s.y, z}, {s.x, s.y, z}, axis::minus_y),
                                        line(2, "side", "left", {0, 0, z}, {0, s.y, z}, axis::x),
                                        line(3, "side", "right", {s.x, 0, z}, {s.x, s.y, z}, axis::minus_x)};
  for (std::size_t i = 0; i < 4; ++i) {
    // Front and back come first; left and right yield to them.
    const std::vector<InstanceId> earlier =
        i < 2 ? std::vector<InstanceId>{} : std::vector<InstanceId>{ring.ids[0], ring.ids[1]};
    const auto id = add_member(lines[i], *ring.section, earlier, corners);
    if (!id) return false;
    ring.ids[i] = *id;
  }
  weld(ring.ids);
  offer(level);
  return true;
}

void AngleRings::weld(const std::array<InstanceId, 4>& ids) {
  for (const std::size_t side : {2, 3}) {
    for (const std::size_t face : {0, 1}) {
      Vec3 normal = face == 0 ? axis::minus_y : axis::y;
      if (corners == Corners::mitred) normal = std::sqrt(0.5) * (normal + (side == 2 ? axis::x : axis::minus_x));
      build_.draft.join(ids[side], ids[face], JointKind::weld, normal, options.gap_mm);
    }
  }
}

void AngleRings::offer(Side level) {
  Shell& shell = build_.shell;
  const Ring& ring = rings[level];
  const Vec3 s = shell.size;
  const double t = ring.thickness_mm();
  auto& strips = level == high ? shell.top : shell.bottom;
  strips[low] = {ring.ids[0], {{0, 0, ring.low_z}, {s.x, t, ring.low_z + ring.standing_mm}}};
  strips[high] = {ring.ids[1], {{0, s.y - t, ring.low_z}, {s.x, s.y, ring.low_z + ring.standing_mm}}};
  offer_faces(ring);
  const std::vector<Host> decks = horizontal_legs(level, (level == high ? s.z : shell.deck_mm) - t);
  if (level == high || up) {
    auto& outside = shell.beside[static_cast<std::size_t>(level == high ? Face::top : Face::bottom)];
    outside.insert(outside.end(), decks.begin(), decks.end());
  } else {
    offer_toes();
  }
  if (level == high) {
    shell.top_face_deck = {decks[0], decks[1]};
    shell.top_side_deck = {decks[2], decks[3]};
  } else {
    shell.deck = decks;
  }
}

// What a plate outside the front, back, left or right lies on: the standing legs, and at the sides the ends of
// the front's and the back's members.
void AngleRings::offer_faces(const Ring& ring) {
  Shell& shell = build_.shell;
  const Vec3 s = shell.size;
  const double t = ring.thickness_mm();
  const double leg = ring.lying_mm;
  const bool mitred = corners == Corners::mitred;
  const double end = side_begins_mm(ring);
  const double low_z = ring.low_z;
  const double high_z = low_z + ring.standing_mm;
  const auto offer = [&](Face face, InstanceId id, Vec3 a, Vec3 b) {
    shell.beside[static_cast<std::size_t>(face)].push_back({id, {a, b}});
  };
  offer(Face::front, ring.ids[0], {0, 0, low_z}, {s.x, t, high_z});
  offer(Face::back, ring.ids[1], {0, s.y - t, low_z}, {s.x, s.y, high_z});
  for (const Face side : {Face::left, Face::right}) {
    const double x = side == Face::left ? 0 : s.x - t;
    // Ends that are sawn square lie in the side's plane, mitred ones only come to an edge near it.
    if (!mitred) offer(side, ring.ids[0], {x, 0, low_z}, {x + t, leg, high_z});
    if (!mitred) offer(side, ring.ids[1], {x, s.y - leg, low_z}, {x + t, s.y, high_z});
    offer(side, ring.ids[side == Face::left ? 2 : 3], {x, end, low_z}, {x + t, s.y - end, high_z});
  }
}

// The toes of legs that point down.
void AngleRings::offer_toes() {
  const Shell& shell = build_.shell;
  auto& outside = build_.shell.beside[static_cast<std::size_t>(Face::bottom)];
  const double t = bottom().thickness_mm();
  for (const Side side : {low, high}) {
    outside.push_back(shell.bottom[side]);
    const double x = side == low ? 0 : shell.size.x - t;
    const double end = side_begins_mm(bottom());
    outside.push_back({bottom().ids[2U + side], {{x, end, 0}, {x + t, shell.size.y - end, bottom().standing_mm}}});
  }
}

// From the face of the frame to a side member's standing leg.
double AngleRings::side_begins_mm(const Ring& ring) const {
  if (corners == Corners::mitred) return 0;
  return (corners == Corners::butted ? ring.lying_mm : ring.thickness_mm()) + options.gap_mm;
}

// Along its heel a mitred end stands this far behind the corner.
double AngleRings::mitre_back_mm() const { return options.gap_mm / std::sqrt(2.0); }

// Front, back, left, right; the last two end before the first two.
std::vector<Host> AngleRings::horizontal_legs(Side level, double z) const {
  const Vec3 s = build_.shell.size;
  const Ring& ring = rings[level];
  const double leg = ring.lying_mm;
  const double end = leg + options.gap_mm;
  const double high_z = z + ring.thickness_mm();
  return {{ring.ids[0], {{0, 0, z}, {s.x, leg, high_z}}},
          {ring.ids[1], {{0, s.y - leg, z}, {s.x, s.y, high_z}}},
          {ring.ids[2], {{0, end, z}, {leg, s.y - end, high_z}}},
          {ring.ids[3], {{s.x - leg, end, z}, {s.x, s.y - end, high_z}}}};
}

std::optional<InstanceId> AngleRings::add_member(const MemberLine& line, const Section& section,
                                                 const std::vector<InstanceId>& earlier, Corners at) {
  Member member{section, line.length_mm, square_cut(section), square_cut(section), {}};
  Pose pose = line.pose;
  std::vector<Obstacle> obstacles;
  obstacles.reserve(earlier.size());
  for (const InstanceId id : earlier) obstacles.push_back(obstacle_of_[id]);
  EndCutOptions how = options;
  how.square = at == Corners::butted;
  const Leg lying = std::abs(pose.x().z) < 0.5 ? Leg::a : Leg::b;
  const EndCutResult cut =
      at == Corners::mitred ? mitre_ends(member, pose, lying, how) : derive_end_cuts(member, pose, obstacles, how);
  if (!cut.ok) {
    build_.diagnostics.add(diag::say<"end-cut">(origin_.place, line.instance, cut.problem));
    return std::nullopt;
  }
  const InstanceId id = add_sawn(build_, {line.mark, line.name, line.instance, line.role}, member, pose, origin_);
  // What ends square is in the way of others as it is, the rest as if it ran on.
  obstacle_of_[id] = how.square ? Obstacle{section, pose, member.length_mm, line.instance}
                                : Obstacle{section, line.pose, line.length_mm, line.instance};
  return id;
}

Ground AngleRings::ground(Side level) const {
  return ground_of(build_.shell, rings[level], level, {up, corners, options.gap_mm, side_begins_mm(rings[level])});
}

}  // namespace fitup::plan

// The welded frame of angle: bottom ring, top ring, flat uprights in the side planes, each end cut derived.
// Entry: build_of_sections.
#include <algorithm>
#include <array>
#include <cmath>

#include <map>

#include <fmt/format.h>

#include "diag/catalogue.h"
#include "fitup/tolerances.h"
#include "plan/build.h"
#include "plan/end_cut.h"
#include "plan/framed/ground.h"
#include "plan/framed/sawn.h"
#include "plan/framed/stiffening.h"
#include "plan/framed/tube_rings.h"
#include "plan/mitre.h"
#include "plan/size_words.h"

namespace fitup::plan {

namespace {

struct MemberLine {
  std::string mark;
  std::string name;
  std::string instance;
  Role role = Role::ring_member;
  Pose pose;
  double length_mm = 0;
};

Ring ring_of(const Section& angle, LongSide side) {
  const auto [shorter, longer] = std::minmax(angle.leg_a_mm, angle.leg_b_mm);
  const bool flat = side == LongSide::flat;
  return {&angle, flat ? longer : shorter, flat ? shorter : longer, 0, {}, {}};
}

class Frame {
 public:
  Frame(Build& build, const Section& bottom, const Section& top, const Section& flat)
      : build_(build),
        rings_{ring_of(bottom, *build.box_spec().frame.long_side), ring_of(top, *build.box_spec().frame.long_side)},
        flat_(flat),
        up_(*build.box_spec().frame.bottom_legs == Legs::up),
        corners_(*build.box_spec().frame.corners),
        options_{build.box_spec().frame.cope_gap->mm(), CornerKind::chamfer, build.spec.units} {}

  bool run() {
    size_shell();
    if (!members_apart() || !square_uprights_apart(build_, flat_)) return false;
    if (!add_ring(low) || !add_ring(high) || !add_uprights()) return false;
    stiffen();
    return true;
  }

 private:
  [[nodiscard]] const Ring& bottom() const { return rings_[low]; }
  [[nodiscard]] const Ring& top() const { return rings_[high]; }

  // Where the heels of a ring are: its standing legs hang from there, or stand up.
  [[nodiscard]] double heel_z(Side level) const {
    if (level == high) return build_.shell.size.z;
    return up_ ? 0 : bottom().standing_mm;
  }
  [[nodiscard]] Vec3 standing_way(Side level) const { return level == low && up_ ? axis::z : axis::minus_z; }

  void size_shell() {
    Shell& shell = build_.shell;
    const double leg = bottom().standing_mm;
    const double t = bottom().thickness_mm();
    const double thicker = std::max(t, top().thickness_mm());
    const Vec2 walls = upright_walls(flat_);
    shell.side_wall_mm = std::max(thicker, walls.x);
    shell.end_wall_mm = std::max(thicker, walls.y);
    shell.deck_mm = up_ ? t : leg;
    const Vec3 inside = build_.box.inside;
    shell.size = {inside.x + 2 * shell.side_wall_mm, inside.y + 2 * shell.end_wall_mm, 0};
    // A rail beside a leg that stands up begins beyond its root.
    const bool flat = flat_.shape == SectionShape::flat;
    shell.rail_inset_mm = up_ ? bottom().root_mm() + options_.gap_mm : (flat ? shell.side_wall_mm : thicker) + 2;
    shell.rail_beside_mm = rail_beside_mm(flat_, shell.rail_inset_mm, options_.gap_mm);
    shell.landing_mm = t;
    shell.deck_root_mm = bottom().root_mm();
    shell.deck_toe_mm = up_ ? std::min(bottom().angle->toe_radius_mm, t) : 0;
    shell.top_root_mm = top().root_mm();
    shell.weld_gap_mm = options_.gap_mm;
    shell.toes_down = !up_;
    shell.floor_mm = shell.deck_mm + build_.box_spec().rails.thickness->mm();
    shell.deck = horizontal_legs(low, shell.deck_mm - t);
    if (!needs_rails(build_)) shell.floor_mm = shell.deck_mm;
    shell.size.z = shell.floor_mm + inside.z + top().thickness_mm();
    rings_[high].low_z = shell.size.z - top().standing_mm;
    shell.opening_z = {up_ ? leg + options_.gap_mm : leg, rings_[high].low_z - options_.gap_mm};
    shell.landing_z = shell.opening_z;
  }

  // Their lying legs with the gap of a weld between them.
  bool members_apart() {
    const Vec3 size = build_.shell.size;
    const FrameSpec& spec = build_.box_spec().frame;
    const bool top_wider = top().lying_mm > bottom().lying_mm;
    const double least = 2 * std::max(bottom().lying_mm, top().lying_mm) + options_.gap_mm;
    const bool wide = size.x >= least - tolerance::contact_mm;
    if (wide && size.y >= least - tolerance::contact_mm) return true;
    const Sourced<std::string>& section = top_wider ? spec.top_section : spec.section;
    build_.diagnostics.add(diag::say<"members-meet">(section.place, build_.in_words(wide ? size.y : size.x),
                                                     wide ? "deep" : "wide", *section, build_.at_least(least)));
    return false;
  }

  // The heel's line from a to b with the standing and the lying leg. A pose is proper: equal legs are taken in the
  // order that makes it so, unequal ones are run from the other end.
  [[nodiscard]] static Pose angle_pose(const Ring& ring, Vec3 a, Vec3 b, Vec3 leg_1, Vec3 leg_2) {
    const Vec3 along = (1 / norm(b - a)) * (b - a);
    if (ring.angle->leg_a_mm != ring.angle->leg_b_mm) {
      if (ring.standing_mm != ring.angle->leg_a_mm) std::swap(leg_1, leg_2);
      return Pose::at(dot(cross(leg_1, leg_2), along) > 0 ? a : b, leg_1, leg_2);
    }
    return dot(cross(leg_1, leg_2), along) > 0 ? Pose::at(a, leg_1, leg_2) : Pose::at(a, leg_2, leg_1);
  }

  bool add_ring(Side level) {
    const Vec3 s = build_.shell.size;
    Ring& ring = rings_[level];
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
      const auto id = add_member(lines[i], *ring.angle, earlier, corners_);
      if (!id) return false;
      ring.ids[i] = *id;
    }
    weld_ring(ring.ids);
    offer_ring(level);
    return true;
  }

  void weld_ring(const std::array<InstanceId, 4>& ids) {
    for (const std::size_t side : {2, 3}) {
      for (const std::size_t face : {0, 1}) {
        Vec3 normal = face == 0 ? axis::minus_y : axis::y;
        if (corners_ == Corners::mitred) normal = std::sqrt(0.5) * (normal + (side == 2 ? axis::x : axis::minus_x));
        build_.draft.join(ids[side], ids[face], JointKind::weld, normal, options_.gap_mm);
      }
    }
  }

  void offer_ring(Side level) {
    Shell& shell = build_.shell;
    const Ring& ring = rings_[level];
    const Vec3 s = shell.size;
    const double t = ring.thickness_mm();
    auto& strips = level == high ? shell.top : shell.bottom;
    strips[low] = {ring.ids[0], {{0, 0, ring.low_z}, {s.x, t, ring.low_z + ring.standing_mm}}};
    strips[high] = {ring.ids[1], {{0, s.y - t, ring.low_z}, {s.x, s.y, ring.low_z + ring.standing_mm}}};
    offer_faces(ring);
    const std::vector<Host> decks = horizontal_legs(level, (level == high ? s.z : shell.deck_mm) - t);
    if (level == high || up_) {
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
      // Behind its bevel a mitred side member may come out beside the upright.
      const bool comes_out = t - mitre_back_mm() > flat_.thickness_mm + tolerance::contact_mm;
      if (corners_ == Corners::mitred && !up_ && comes_out) shell.corner_deck = {ring.ids[2], ring.ids[3]};
    }
  }

  // What a plate outside the front, back, left or right lies on: the standing legs, and at the sides the ends of
  // the front's and the back's members.
  void offer_faces(const Ring& ring) {
    Shell& shell = build_.shell;
    const Vec3 s = shell.size;
    const double t = ring.thickness_mm();
    const double leg = ring.lying_mm;
    const bool mitred = corners_ == Corners::mitred;
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
  void offer_toes() {
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
  [[nodiscard]] double side_begins_mm(const Ring& ring) const {
    if (corners_ == Corners::mitred) return 0;
    return (corners_ == Corners::butted ? ring.lying_mm : ring.thickness_mm()) + options_.gap_mm;
  }

  void stiffen() {
    Bones bones{rings_, up_, corners_, options_};
    for (Ring& ring : bones.rings) {
      for (std::size_t i = 0; i < ring.ids.size(); ++i) ring.obstacles[i] = obstacle_of_.at(ring.ids[i]);
    }
    const FrameSpec& spec = build_.box_spec().frame;
    if (spec.cross_bars) add_cross_bars(build_, bones);
    if (spec.gussets) add_gussets(build_, bones);
    if (spec.braces) add_braces(build_, bones);
  }

  // Front, back, left, right; the last two end before the first two.
  [[nodiscard]] std::vector<Host> horizontal_legs(Side level, double z) const {
    const Vec3 s = build_.shell.size;
    const Ring& ring = rings_[level];
    const double leg = ring.lying_mm;
    const double end = leg + options_.gap_mm;
    const double high_z = z + ring.thickness_mm();
    return {{ring.ids[0], {{0, 0, z}, {s.x, leg, high_z}}},
            {ring.ids[1], {{0, s.y - leg, z}, {s.x, s.y, high_z}}},
            {ring.ids[2], {{0, end, z}, {leg, s.y - end, high_z}}},
            {ring.ids[3], {{s.x - leg, end, z}, {s.x, s.y - end, high_z}}}};
  }

  [[nodiscard]] Ground ground(Side level) const {
    return ground_of(build_.shell, rings_[level], level,
                     {up_, corners_, options_.gap_mm, side_begins_mm(rings_[level])});
  }

  bool add_uprights() {
    if (flat_.shape != SectionShape::flat) return add_square_uprights(build_, flat_, ground(low), ground(high));
    for (const Side depth : {low, high}) {
      for (const Side side : {low, high}) {
        if (!add_upright(depth, side)) return false;
      }
    }
    return true;
  }

  // Flush in the side plane, its width along Y, its thickness inwards.
  bool add_upright(Side depth, Side side) {
    Shell& shell = build_.shell;
    const Vec3 s = shell.size;
    const double x = side == low ? flat_.thickness_mm : s.x;
    const double y = depth == low ? 0 : s.y - flat_.leg_a_mm;
    const double foot = up_ ? 0 : shell.deck_mm;
    const MemberLine line{fmt::format("BAR{:02}", 1 + 2 * depth + side),
                          "upright",
                          fmt::format("upright {} {}", depth == low ? "front" : "back", side == low ? "left" : "right"),
                          Role::upright,
                          Pose::at({x, y, foot}, axis::y, axis::minus_x),
                          s.z - foot};
    Host& host = shell.upright[depth][side];
    host.box = {{x - flat_.thickness_mm, y, shell.opening_z[low]}, {x, y + flat_.leg_a_mm, shell.opening_z[high]}};
    return place_upright(line, depth, side, host);
  }

  bool place_upright(const MemberLine& line, Side depth, Side side, Host& host) {
    Shell& shell = build_.shell;
    const InstanceId top_side = shell.top_side_deck[side].id;
    const InstanceId bottom_side = bottom().ids[2U + side];
    std::vector<InstanceId> earlier{shell.top[depth].id, top_side};
    // It stands on a leg's flat, or ends above a leg that stands up.
    if (up_) earlier.insert(earlier.end(), {shell.bottom[depth].id, bottom_side});
    const auto id = add_member(line, flat_, earlier);
    if (!id) return false;
    host.id = *id;
    shell.beside[static_cast<std::size_t>(side == low ? Face::left : Face::right)].push_back(host);
    shell.beside[static_cast<std::size_t>(depth == low ? Face::front : Face::back)].push_back(host);
    Draft& draft = build_.draft;
    if (meets_face_member()) draft.join(*id, shell.top[depth].id, JointKind::weld, axis::z, options_.gap_mm);
    join_side(*id, top(), side, axis::z, depth);
    const double foot_gap = up_ ? options_.gap_mm : 0;
    if (meets_face_member()) draft.join(*id, shell.bottom[depth].id, JointKind::weld, axis::minus_z, foot_gap);
    if (up_) join_side(*id, bottom(), side, axis::minus_z, depth);
    // On its lying leg too, where it is wider than the front one's or the front one's is mitred.
    const bool wider = flat_.leg_a_mm > bottom().lying_mm + options_.gap_mm;
    const bool stands_on_both = !up_ && (wider || corners_ == Corners::mitred);
    if (stands_on_both) draft.join(*id, bottom_side, JointKind::weld, axis::minus_z);
    return true;
  }

  // Along its heel a mitred end stands this far behind the corner.
  [[nodiscard]] double mitre_back_mm() const { return options_.gap_mm / std::sqrt(2.0); }

  // A mitred front or back member comes over an upright only where the upright is thicker than that.
  [[nodiscard]] bool meets_face_member() const {
    return corners_ != Corners::mitred || flat_.thickness_mm > mitre_back_mm() + tolerance::contact_mm;
  }

  // A butted side member begins where the lying leg of the front one ends: beside an upright as wide as that leg, over
  // a wider one. It does not meet a narrower one, which the front member holds alone.
  void join_side(InstanceId upright, const Ring& ring, Side side, Vec3 end_of_upright, Side depth) {
    const double wider = flat_.leg_a_mm - ring.lying_mm;
    const bool butted = corners_ == Corners::butted;
    const bool beside = butted && std::abs(wider) <= tolerance::contact_mm;
    if (butted && !beside && wider < 0) return;
    const Vec3 along = depth == low ? axis::y : axis::minus_y;
    build_.draft.join(upright, ring.ids[2U + side], JointKind::weld, beside ? along : end_of_upright, options_.gap_mm);
  }

  std::optional<InstanceId> add_member(const MemberLine& line, const Section& section,
                                       const std::vector<InstanceId>& earlier, Corners corners = Corners::coped) {
    Member member{section, line.length_mm, square_cut(section), square_cut(section), {}};
    Pose pose = line.pose;
    std::vector<Obstacle> obstacles;
    obstacles.reserve(earlier.size());
    for (const InstanceId id : earlier) obstacles.push_back(obstacle_of_[id]);
    EndCutOptions options = options_;
    options.square = corners == Corners::butted;
    const Leg lying = std::abs(pose.x().z) < 0.5 ? Leg::a : Leg::b;
    const EndCutResult cut = corners == Corners::mitred ? mitre_ends(member, pose, lying, options)
                                                        : derive_end_cuts(member, pose, obstacles, options);
    if (!cut.ok) {
      build_.diagnostics.add(diag::say<"end-cut">(build_.box_spec().frame.section.place, line.instance, cut.problem));
      return std::nullopt;
    }
    const InstanceId id = add_sawn(build_, {line.mark, line.name, line.instance, line.role}, member, pose);
    // What ends square is in the way of others as it is, the rest as if it ran on.
    obstacle_of_[id] = options.square ? Obstacle{section, pose, member.length_mm, line.instance}
                                      : Obstacle{section, line.pose, line.length_mm, line.instance};
    return id;
  }

  Build& build_;
  std::array<Ring, 2> rings_;  // bottom, top
  const Section& flat_;
  bool up_;
  Corners corners_;
  EndCutOptions options_;
  std::map<InstanceId, Obstacle> obstacle_of_;
};

}  // namespace

bool build_of_sections(Build& build) {
  const FrameSpec& spec = build.box_spec().frame;
  const Section* angle = build.spec.section(*spec.section);
  const Section* flat = build.spec.section(*spec.uprights);
  const Section* top = build.spec.section(*spec.top_section);
  const double thinner = std::min({angle->thickness_mm, top->thickness_mm, flat->thickness_mm});
  if (spec.cope_gap->mm() > thinner + tolerance::contact_mm) {
    build.diagnostics.add(
        diag::say<"gap-too-wide">(spec.cope_gap.place, build.in_words(spec.cope_gap->mm()), build.in_words(thinner)));
    return false;
  }
  if (!stiffens(build, *angle, *top, *flat)) return false;
  if (angle->shape == SectionShape::tube) return build_tube_frame(build, *angle, *flat);
  return Frame(build, *angle, *top, *flat).run();
}

}  // namespace fitup::plan

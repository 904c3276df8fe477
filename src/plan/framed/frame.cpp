// The welded frame of angle: bottom ring, top ring, flat uprights in the side planes, each end cut derived.
// Entry: build_frame.
#include <algorithm>
#include <array>
#include <cmath>

#include <map>

#include <fmt/format.h>

#include "diag/catalogue.h"
#include "fitup/tolerances.h"
#include "plan/build.h"
#include "plan/end_cut.h"
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

double lying_leg_mm(const Section& angle, LongSide side) {
  const auto [shorter, longer] = std::minmax(angle.leg_a_mm, angle.leg_b_mm);
  return side == LongSide::flat ? longer : shorter;
}

class Frame {
 public:
  Frame(Build& build, const Section& angle, const Section& flat)
      : build_(build),
        angle_(angle),
        flat_(flat),
        lying_mm_(lying_leg_mm(angle, *build.box_spec().frame.long_side)),
        standing_mm_(angle.leg_a_mm + angle.leg_b_mm - lying_mm_),
        up_(*build.box_spec().frame.bottom_legs == Legs::up),
        corners_(*build.box_spec().frame.corners),
        options_{build.box_spec().frame.cope_gap->mm(), CornerKind::chamfer, build.spec.units} {}

  bool run() {
    size_shell();
    return members_apart() && uprights_apart() && add_ring(false) && add_ring(true) && add_uprights();
  }

 private:
  // Where the standing or hanging leg of a ring is, and its horizontal one.
  struct Ring {
    double heel_z;
    Vec3 upright_leg;  // direction of the vertical leg
    double low_z;      // of the vertical leg
  };

  [[nodiscard]] Ring ring(bool top) const {
    const Vec3 size = build_.shell.size;
    const double leg = standing_mm_;
    if (top) return {size.z, axis::minus_z, size.z - leg};
    if (up_) return {0, axis::z, 0};
    return {leg, axis::minus_z, 0};
  }

  void size_shell() {
    Shell& shell = build_.shell;
    const double leg = standing_mm_;
    const double t = angle_.thickness_mm;
    shell.side_wall_mm = std::max(t, flat_.thickness_mm);
    shell.end_wall_mm = t;
    shell.deck_mm = up_ ? t : leg;
    const Vec3 inside = build_.box.inside;
    shell.size = {inside.x + 2 * shell.side_wall_mm, inside.y + 2 * shell.end_wall_mm, 0};
    // A rail beside a leg that stands up begins beyond its root.
    shell.rail_inset_mm =
        up_ ? t + angle_.root_radius_mm + options_.gap_mm : std::max(shell.side_wall_mm, shell.end_wall_mm) + 2;
    shell.deck_root_mm = t + angle_.root_radius_mm;
    shell.weld_gap_mm = options_.gap_mm;
    shell.toes_down = !up_;
    shell.floor_mm = shell.deck_mm + build_.box_spec().rails.thickness->mm();
    shell.deck = horizontal_legs({}, shell.deck_mm - t);
    if (!needs_rails(build_)) shell.floor_mm = shell.deck_mm;
    shell.size.z = shell.floor_mm + inside.z + t;
    shell.opening_z = {up_ ? leg + options_.gap_mm : leg, shell.size.z - leg - options_.gap_mm};
  }

  // Their lying legs with the gap of a weld between them.
  bool members_apart() {
    const Vec3 size = build_.shell.size;
    const double least = 2 * lying_mm_ + options_.gap_mm;
    const bool wide = size.x >= least - tolerance::contact_mm;
    if (wide && size.y >= least - tolerance::contact_mm) return true;
    const Sourced<std::string>& section = build_.box_spec().frame.section;
    build_.diagnostics.add(diag::say<"members-meet">(section.place, build_.in_words(wide ? size.y : size.x),
                                                     wide ? "deep" : "wide", *section, build_.at_least(least)));
    return false;
  }

  bool uprights_apart() {
    const double depth = build_.shell.size.y;
    const double room = depth - 2 * flat_.leg_a_mm;
    if (room > tolerance::contact_mm) return true;
    const Sourced<std::string>& uprights = build_.box_spec().frame.uprights;
    build_.diagnostics.add(diag::say<"uprights-meet">(uprights.place, *uprights, build_.in_words(flat_.leg_a_mm),
                                                      build_.in_words(depth), build_.at_most(depth / 2)));
    return false;
  }

  // The heel's line from a to b with the standing and the lying leg. A pose is proper: equal legs are taken in the
  // order that makes it so, unequal ones are run from the other end.
  [[nodiscard]] Pose angle_pose(Vec3 a, Vec3 b, Vec3 leg_1, Vec3 leg_2) const {
    const Vec3 along = (1 / norm(b - a)) * (b - a);
    if (angle_.leg_a_mm != angle_.leg_b_mm) {
      if (standing_mm_ != angle_.leg_a_mm) std::swap(leg_1, leg_2);
      return Pose::at(dot(cross(leg_1, leg_2), along) > 0 ? a : b, leg_1, leg_2);
    }
    return dot(cross(leg_1, leg_2), along) > 0 ? Pose::at(a, leg_1, leg_2) : Pose::at(a, leg_2, leg_1);
  }

  bool add_ring(bool top) {
    const Vec3 s = build_.shell.size;
    const Ring r = ring(top);
    const char* level = top ? "top" : "bottom";
    const int first = top ? 5 : 1;
    const auto line = [&](int number, const char* name, const char* side, Vec3 a, Vec3 b, Vec3 inward) {
      return MemberLine{fmt::format("ANG{:02}", first + number),       fmt::format("{} ring member", name),
                        fmt::format("{} ring member {}", level, side), Role::ring_member,
                        angle_pose(a, b, r.upright_leg, inward),       norm(b - a)};
    };
    const std::array<MemberLine, 4> lines{
        line(0, "front", "front", {0, 0, r.heel_z}, {s.x, 0, r.heel_z}, axis::y),
        line(1, "back", "back", {0, s.y, r.heel_z}, {s.x, s.y, r.heel_z}, axis::minus_y),
        line(2, "side", "left", {0, 0, r.heel_z}, {0, s.y, r.heel_z}, axis::x),
        line(3, "side", "right", {s.x, 0, r.heel_z}, {s.x, s.y, r.heel_z}, axis::minus_x)};
    std::array<InstanceId, 4> ids{};
    for (std::size_t i = 0; i < 4; ++i) {
      // Front and back come first; left and right yield to them.
      const std::vector<InstanceId> earlier =
          i < 2 ? std::vector<InstanceId>{} : std::vector<InstanceId>{ids[0], ids[1]};
      const auto id = add_member(lines[i], angle_, earlier, corners_);
      if (!id) return false;
      ids[i] = *id;
    }
    weld_ring(ids);
    offer_ring(top, ids);
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

  void offer_ring(bool top, const std::array<InstanceId, 4>& ids) {
    Shell& shell = build_.shell;
    const Vec3 s = shell.size;
    const double t = angle_.thickness_mm;
    const double leg = standing_mm_;
    const double low_z = ring(top).low_z;
    auto& strips = top ? shell.top : shell.bottom;
    strips[low] = {ids[0], {{0, 0, low_z}, {s.x, t, low_z + leg}}};
    strips[high] = {ids[1], {{0, s.y - t, low_z}, {s.x, s.y, low_z + leg}}};
    offer_faces(ids, low_z);
    const std::vector<Host> decks = horizontal_legs(ids, top ? s.z - t : shell.deck_mm - t);
    if (top || up_) {
      auto& outside = shell.beside[static_cast<std::size_t>(top ? Face::top : Face::bottom)];
      outside.insert(outside.end(), decks.begin(), decks.end());
    } else {
      offer_toes(ids);
    }
    if (top) {
      shell.top_face_deck = {decks[0], decks[1]};
      shell.top_side_deck = {decks[2], decks[3]};
    } else {
      shell.deck = decks;
      // Behind its bevel a mitred side member may come out beside the upright.
      const bool comes_out = angle_.thickness_mm - mitre_back_mm() > flat_.thickness_mm + tolerance::contact_mm;
      if (corners_ == Corners::mitred && !up_ && comes_out) shell.corner_deck = {ids[2], ids[3]};
      bottom_side_ = {ids[2], ids[3]};
    }
  }

  // What a plate outside the front, back, left or right lies on: the standing legs, and at the sides the ends of
  // the front's and the back's members.
  void offer_faces(const std::array<InstanceId, 4>& ids, double low_z) {
    Shell& shell = build_.shell;
    const Vec3 s = shell.size;
    const double t = angle_.thickness_mm;
    const double leg = lying_mm_;
    const bool mitred = corners_ == Corners::mitred;
    const double end = side_begins_mm();
    const double high_z = low_z + standing_mm_;
    const auto offer = [&](Face face, InstanceId id, Vec3 a, Vec3 b) {
      shell.beside[static_cast<std::size_t>(face)].push_back({id, {a, b}});
    };
    offer(Face::front, ids[0], {0, 0, low_z}, {s.x, t, high_z});
    offer(Face::back, ids[1], {0, s.y - t, low_z}, {s.x, s.y, high_z});
    for (const Face side : {Face::left, Face::right}) {
      const double x = side == Face::left ? 0 : s.x - t;
      // Ends that are sawn square lie in the side's plane, mitred ones only come to an edge near it.
      if (!mitred) offer(side, ids[0], {x, 0, low_z}, {x + t, leg, high_z});
      if (!mitred) offer(side, ids[1], {x, s.y - leg, low_z}, {x + t, s.y, high_z});
      offer(side, ids[side == Face::left ? 2 : 3], {x, end, low_z}, {x + t, s.y - end, high_z});
    }
  }

  // The toes of legs that point down.
  void offer_toes(const std::array<InstanceId, 4>& ids) {
    const Shell& shell = build_.shell;
    auto& bottom = build_.shell.beside[static_cast<std::size_t>(Face::bottom)];
    const double t = angle_.thickness_mm;
    for (const Side side : {low, high}) {
      bottom.push_back(shell.bottom[side]);
      const double x = side == low ? 0 : shell.size.x - t;
      const double end = side_begins_mm();
      const double leg = standing_mm_;
      bottom.push_back({ids[2U + side], {{x, end, 0}, {x + t, shell.size.y - end, leg}}});
    }
  }

  // From the face of the frame to a side member's standing leg.
  [[nodiscard]] double side_begins_mm() const {
    if (corners_ == Corners::mitred) return 0;
    return (corners_ == Corners::butted ? lying_mm_ : angle_.thickness_mm) + options_.gap_mm;
  }

  // Front, back, left, right; the last two end before the first two.
  [[nodiscard]] std::vector<Host> horizontal_legs(const std::array<InstanceId, 4>& ids, double z) const {
    const Vec3 s = build_.shell.size;
    const double leg = lying_mm_;
    const double end = leg + options_.gap_mm;
    const double high_z = z + angle_.thickness_mm;
    return {{ids[0], {{0, 0, z}, {s.x, leg, high_z}}},
            {ids[1], {{0, s.y - leg, z}, {s.x, s.y, high_z}}},
            {ids[2], {{0, end, z}, {leg, s.y - end, high_z}}},
            {ids[3], {{s.x - leg, end, z}, {s.x, s.y - end, high_z}}}};
  }

  bool add_uprights() {
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
    const InstanceId bottom_side = bottom_side_[side];
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
    join_side(*id, top_side, axis::z, depth);
    const double foot_gap = up_ ? options_.gap_mm : 0;
    if (meets_face_member()) draft.join(*id, shell.bottom[depth].id, JointKind::weld, axis::minus_z, foot_gap);
    if (up_) join_side(*id, bottom_side, axis::minus_z, depth);
    // On its lying leg too, where it is wider than the front one's or the front one's is mitred.
    const bool wider = flat_.leg_a_mm > lying_mm_ + options_.gap_mm;
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
  void join_side(InstanceId upright, InstanceId side, Vec3 end_of_upright, Side depth) {
    const double wider = flat_.leg_a_mm - lying_mm_;
    const bool butted = corners_ == Corners::butted;
    const bool beside = butted && std::abs(wider) <= tolerance::contact_mm;
    if (butted && !beside && wider < 0) return;
    const Vec3 along = depth == low ? axis::y : axis::minus_y;
    build_.draft.join(upright, side, JointKind::weld, beside ? along : end_of_upright, options_.gap_mm);
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
    Part part;
    part.mark = line.mark;
    part.name = line.name;
    part.role = line.role;
    part.source = Source::sawn;
    part.material = material_of(build_);
    part.size = fmt::format("{} x {} mm", section.designation, plain(member.length_mm));
    part.form = member;
    const InstanceId id = build_.draft.add(std::move(part), pose, line.instance,
                                           {build_.key("frame"), build_.box_spec().frame.section.place, "frame"});
    // What ends square is in the way of others as it is, the rest as if it ran on.
    obstacle_of_[id] = options.square ? Obstacle{section, pose, member.length_mm, line.instance}
                                      : Obstacle{section, line.pose, line.length_mm, line.instance};
    return id;
  }

  Build& build_;
  const Section& angle_;
  const Section& flat_;
  double lying_mm_;  // what lies of a ring's section, and what stands of it
  double standing_mm_;
  bool up_;
  Corners corners_;
  EndCutOptions options_;
  std::array<InstanceId, 2> bottom_side_{};
  std::map<InstanceId, Obstacle> obstacle_of_;
};

}  // namespace

namespace {

bool offers_all(Build& build) {
  const FrameSpec& spec = build.box_spec().frame;
  const auto refuse = [&build](const char* key, const Place& place) {
    build.diagnostics.add(diag::say<"not-built">(place, build.key(key)));
    return false;
  };
  if (spec.top_section.given) return refuse("frame.top_section", spec.top_section.place);
  if (spec.cross_bars) return refuse("frame.cross_bars", spec.cross_bars->place);
  if (spec.braces) return refuse("frame.braces", spec.braces->place);
  if (spec.gussets) return refuse("frame.gussets", spec.gussets->place);
  return true;
}

}  // namespace

bool build_frame(Build& build) {
  const FrameSpec& spec = build.box_spec().frame;
  if (!offers_all(build)) return false;
  const Section* angle = build.spec.section(*spec.section);
  const Section* flat = build.spec.section(*spec.uprights);
  const double thinner = std::min(angle->thickness_mm, flat->thickness_mm);
  if (spec.cope_gap->mm() > thinner + tolerance::contact_mm) {
    build.diagnostics.add(
        diag::say<"gap-too-wide">(spec.cope_gap.place, build.in_words(spec.cope_gap->mm()), build.in_words(thinner)));
    return false;
  }
  return Frame(build, *angle, *flat).run();
}

}  // namespace fitup::plan

// Uprights that are sawn square at both ends: tubes in the corners, angles as corner posts, flats on rings of tube.
// Entry: add_square_uprights, shares_face.
#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "diag/catalogue.h"
#include "fitup/tolerances.h"
#include "plan/end_cut.h"
#include "plan/framed/ground.h"
#include "plan/framed/sawn.h"

namespace fitup::plan {

namespace {

constexpr double band = tolerance::contact_mm;
constexpr double beside_tube_mm = 2;  // between a rail and a tube in the corner

const char* mark_of(const Section& s) {
  return s.shape == SectionShape::tube ? "TUB" : s.shape == SectionShape::angle ? "ANG" : "BAR";
}

// What of the section meets a ring, from the corner: the flats of a tube's walls, an angle's legs without their toes'
// rounding, the whole of a flat.
std::vector<Box2> solids(const Section& s) {
  const Vec2 size = upright_size(s);
  const double t = s.thickness_mm;
  if (s.shape == SectionShape::flat) return {{{0, 0}, size}};
  if (s.shape == SectionShape::angle) return {{{0, 0}, {t, size.y}}, {{0, 0}, {size.x, t}}};
  const double c = std::max(t, s.corner_radius_mm);
  return {{{0, c}, {t, size.y - c}},
          {{size.x - t, c}, {size.x, size.y - c}},
          {{c, 0}, {size.x - c, t}},
          {{c, size.y - t}, {size.x - c, size.y}}};
}

bool meets(const Section& upright, const Flat2& flat) {
  const auto all = solids(upright);
  return std::any_of(all.begin(), all.end(), [&](const Box2& solid) { return shares_face(solid, flat); });
}

// With its edges, and a little beyond.
Flat2 widened(Flat2 flat) {
  const Vec2 edge{2 * band, 2 * band};
  flat.area = {flat.area.low - edge, flat.area.high + edge};
  flat.mitre_mm -= 2 * band;
  return flat;
}

class Uprights {
 public:
  Uprights(Build& build, const Section& section, const Ground& foot, const Ground& head)
      : build_(build), section_(section), size_(upright_size(section)), foot_(foot), head_(head) {}

  bool run() {
    for (const Ground* ground : {&foot_, &head_}) {
      if (!meets(section_, ground->face) && !meets(section_, ground->side)) return say_round();
    }
    for (const Side depth : {low, high}) {
      for (const Side side : {low, high}) add(depth, side);
    }
    return true;
  }

 private:
  bool say_round() {
    const Sourced<std::string>& uprights = build_.box_spec().frame.uprights;
    build_.diagnostics.add(diag::say<"upright-on-round">(
        uprights.place, *uprights, build_.in_words(section_.thickness_mm), *build_.box_spec().frame.section));
    return false;
  }

  // From the corner's own X and Y to the frame's.
  [[nodiscard]] Box3 placed(const Box2& from_corner, Side depth, Side side, double low_z, double high_z) const {
    const Vec3 s = build_.shell.size;
    const auto at = [&](Vec2 p, double z) {
      return Vec3{side == low ? p.x : s.x - p.x, depth == low ? p.y : s.y - p.y, z};
    };
    Box3 box;
    box.add(at(from_corner.low, low_z));
    box.add(at(from_corner.high, high_z));
    return box;
  }

  // A flat's width and a tube's longer side run along Y; an angle's heel is in the corner.
  [[nodiscard]] Pose pose(Side depth, Side side) const {
    const Box3 box = placed({{0, 0}, size_}, depth, side, foot_.z, head_.z);
    if (section_.shape == SectionShape::tube && section_.leg_a_mm < section_.leg_b_mm) return Pose::at(box.low);
    if (section_.shape != SectionShape::angle)
      return Pose::at({box.high.x, box.low.y, foot_.z}, axis::y, axis::minus_x);
    const Vec3 s = build_.shell.size;
    const Vec3 heel{side == low ? 0 : s.x, depth == low ? 0 : s.y, foot_.z};
    Vec3 long_leg = depth == low ? axis::y : axis::minus_y;
    Vec3 short_leg = side == low ? axis::x : axis::minus_x;
    if (section_.leg_a_mm != std::max(section_.leg_a_mm, section_.leg_b_mm)) std::swap(long_leg, short_leg);
    if (dot(cross(long_leg, short_leg), axis::z) > 0) return Pose::at(heel, long_leg, short_leg);
    if (section_.leg_a_mm == section_.leg_b_mm) return Pose::at(heel, short_leg, long_leg);
    // Upside down, so that it stays itself.
    return Pose::at({heel.x, heel.y, head_.z}, long_leg, short_leg);
  }

  void add(Side depth, Side side) {
    const Member member{section_, head_.z - foot_.z, square_cut(section_), square_cut(section_), {}};
    const std::string name =
        fmt::format("upright {} {}", depth == low ? "front" : "back", side == low ? "left" : "right");
    const InstanceId id = add_sawn(
        build_, {fmt::format("{}{}", mark_of(section_), 11 + 2 * depth + side), "upright", name, Role::upright}, member,
        pose(depth, side));
    offer(id, depth, side);
    weld(id, foot_, axis::minus_z, depth, side);
    weld(id, head_, axis::z, depth, side);
  }

  void weld(InstanceId id, const Ground& ground, Vec3 normal, Side depth, Side side) {
    join(id, ground.face_ids[depth], ground.face, normal, ground.gap_mm);
    join(id, ground.side_ids[side], ground.side, normal, ground.gap_mm);
  }

  // By an edge alone, as where its wall stands over a tube's rounding, it may touch.
  void join(InstanceId id, InstanceId ring, const Flat2& flat, Vec3 normal, double gap_mm) {
    if (meets(section_, flat)) {
      build_.draft.join(id, ring, JointKind::weld, normal, gap_mm);
    } else if (meets(section_, widened(flat))) {
      build_.draft.join(id, ring, JointKind::slip, normal, gap_mm);
    }
  }

  void offer(InstanceId id, Side depth, Side side) {
    Shell& shell = build_.shell;
    const double low_z = foot_.z;
    const double high_z = head_.z;
    const double t = section_.thickness_mm;
    const bool tube = section_.shape == SectionShape::tube;
    const bool angle = section_.shape == SectionShape::angle;
    Host& host = shell.upright[depth][side];
    host = {id, placed({{0, 0}, {angle ? t : size_.x, size_.y}}, depth, side, low_z, high_z)};
    if (tube) host.wall_mm = t;
    if (tube) host.round_mm = section_.corner_radius_mm;
    if (angle) host.root_mm = t + section_.root_radius_mm;
    Host face = host;
    if (angle) face.box = placed({{0, 0}, {size_.x, t}}, depth, side, low_z, high_z);
    if (tube || angle) shell.upright_face[depth][side] = face;
    shell.beside[static_cast<std::size_t>(side == low ? Face::left : Face::right)].push_back(host);
    shell.beside[static_cast<std::size_t>(depth == low ? Face::front : Face::back)].push_back(face);
  }

  Build& build_;
  const Section& section_;
  Vec2 size_;
  const Ground& foot_;
  const Ground& head_;
};

}  // namespace

bool shares_face(const Box2& solid, const Flat2& flat) {
  const Vec2 a{std::max(solid.low.x, flat.area.low.x), std::max(solid.low.y, flat.area.low.y)};
  const Vec2 b{std::min(solid.high.x, flat.area.high.x), std::min(solid.high.y, flat.area.high.y)};
  if (b.x - a.x <= band || b.y - a.y <= band) return false;
  if (flat.cut == Flat2::Cut::keeps_x) return b.x > a.y + flat.mitre_mm + band;
  if (flat.cut == Flat2::Cut::keeps_y) return b.y > a.x + flat.mitre_mm + band;
  return true;
}

Vec2 upright_size(const Section& s) {
  if (s.shape == SectionShape::flat) return {s.thickness_mm, s.leg_a_mm};
  const auto [shorter, longer] = std::minmax(s.leg_a_mm, s.leg_b_mm);
  return {shorter, longer};
}

Vec2 upright_walls(const Section& s) {
  if (s.shape == SectionShape::tube) return {upright_size(s).x, 0};
  return {s.thickness_mm, s.shape == SectionShape::angle ? s.thickness_mm : 0};
}

bool square_uprights_apart(Build& build, const Section& upright) {
  const Vec3 frame = build.shell.size;
  const Vec2 size = upright_size(upright);
  const bool deep = frame.y - 2 * size.y <= band;
  const bool wide = frame.x - 2 * size.x <= band;
  if (!deep && !wide) return true;
  const Sourced<std::string>& uprights = build.box_spec().frame.uprights;
  build.diagnostics.add(diag::say<"uprights-meet">(uprights.place, *uprights, build.in_words(deep ? size.y : size.x),
                                                   build.in_words(deep ? frame.y : frame.x), deep ? "deep" : "wide",
                                                   deep ? "the front and the back" : "the left and the right",
                                                   build.at_most(deep ? frame.y / 2 : frame.x / 2)));
  return false;
}

Vec2 rail_beside_mm(const Section& upright, double inset_mm, double gap_mm) {
  if (upright.shape == SectionShape::flat) return {inset_mm, inset_mm};
  const Vec2 size = upright_size(upright);
  const double root = upright.thickness_mm + upright.root_radius_mm + gap_mm;
  if (upright.shape == SectionShape::angle) return {std::max(inset_mm, root), std::max(inset_mm, root)};
  return {std::max(inset_mm, size.x + beside_tube_mm), std::max(inset_mm, size.y + beside_tube_mm)};
}

Ground ground_of(const Shell& shell, const Ring& ring, Side level, const AngleCorners& corners) {
  const bool on_legs = level == low && !corners.legs_up;
  const bool mitred = corners.corners == Corners::mitred;
  const double toe = std::min(ring.section->toe_radius_mm, ring.thickness_mm() / 2);
  const double edge = on_legs ? ring.lying_mm : ring.thickness_mm() - toe;
  const double begins = mitred ? 0 : on_legs ? ring.lying_mm + corners.gap_mm : corners.side_begins_mm;
  const double mitre = corners.gap_mm / std::sqrt(2.0);
  constexpr double far = 1e6;  // beyond any upright
  Ground g;
  g.z = on_legs ? shell.deck_mm : shell.opening_z[level];
  g.gap_mm = on_legs ? 0 : corners.gap_mm;
  g.face = {{{0, 0}, {far, edge}}, mitred ? Flat2::Cut::keeps_x : Flat2::Cut::none, mitre};
  g.side = {{{0, begins}, {edge, far}}, mitred ? Flat2::Cut::keeps_y : Flat2::Cut::none, mitre};
  g.face_ids = {ring.ids[0], ring.ids[1]};
  g.side_ids = {ring.ids[2], ring.ids[3]};
  return g;
}

bool takes_top_section(Build& build, const Section& bottom, const Section& top) {
  if (bottom.shape == top.shape) return true;
  const FrameSpec& spec = build.box_spec().frame;
  const char* other = bottom.shape == SectionShape::tube ? "tube" : "angle";
  build.diagnostics.add(diag::say<"tube-not-stiffened">(
      spec.top_section.place, fmt::format("{} = \"{}\"", build.key("frame.top_section"), *spec.top_section),
      fmt::format("over a bottom ring of {}", other), fmt::format("one of {}", other)));
  return false;
}

bool add_square_uprights(Build& build, const Section& upright, const Ground& foot, const Ground& head) {
  return Uprights(build, upright, foot, head).run();
}

}  // namespace fitup::plan

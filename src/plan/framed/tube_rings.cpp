// Rings of square or rectangular tube, butted with caps in the open ends or mitred, and what they offer.
// Entry: build_tube_frame.
#include "plan/framed/tube_rings.h"

#include <algorithm>
#include <array>
#include <cmath>

#include <fmt/format.h>

#include "diag/catalogue.h"
#include "fitup/tolerances.h"
#include "layout/set_in.h"
#include "plan/end_cut.h"
#include "plan/framed/ground.h"
#include "plan/framed/sawn.h"
#include "plan/framed/stiffening.h"
#include "plan/mitre.h"

namespace fitup::plan {

namespace {

constexpr double before_round_mm = 2;  // a rail begins this far behind a tube's rounding
constexpr double beside_wall_mm = 2;   // and keeps this far off the walls
constexpr double cap_fit_mm = 0.5;     // round a cap in its tube

double lying_mm(const Section& tube, LongSide side) {
  const auto [shorter, longer] = std::minmax(tube.leg_a_mm, tube.leg_b_mm);
  return side == LongSide::flat ? longer : shorter;
}

// A ring's tube as it lies.
struct Lying {
  const Section* tube;
  double wide;  // across the ring
  double high;
  double round;  // radius of its corners
  double wall;
};

Lying lying(const Section& tube, LongSide side) {
  const double wide = lying_mm(tube, side);
  return {&tube, wide, tube.leg_a_mm + tube.leg_b_mm - wide, tube.corner_radius_mm, tube.thickness_mm};
}

class TubeFrame {
 public:
  TubeFrame(Build& build, const Section& bottom, const Section& top, const Section& upright)
      : build_(build),
        shell_(build.shell),
        lying_{lying(bottom, *build.box_spec().frame.long_side), lying(top, *build.box_spec().frame.long_side)},
        widest_(std::max(lying_[low].wide, lying_[high].wide)),
        upright_(upright),
        gap_(build.box_spec().frame.cope_gap->mm()),
        mitred_(*build.box_spec().frame.corners == Corners::mitred) {}

  bool run() {
    size_shell();
    if (!members_apart() || !square_uprights_apart(build_, upright_)) return false;
    const auto bottom = add_ring(low);
    if (!bottom) return false;
    const auto top = add_ring(high);
    if (!top) return false;
    if (!add_square_uprights(build_, upright_, ground(*bottom, low), ground(*top, high))) return false;
    stiffen(*bottom, *top);
    return true;
  }

 private:
  using Ids = std::array<InstanceId, 4>;  // front, back, left, right

  // Rails keep off the gussets, and cross bars are as many as rails ask for.
  void stiffen(const Ids& bottom, const Ids& top) {
    const Bones bones{{ring(bottom, low), ring(top, high)},
                      false,
                      mitred_ ? Corners::mitred : Corners::butted,
                      {gap_, CornerKind::chamfer, build_.spec.units}};
    const FrameSpec& spec = build_.box_spec().frame;
    if (spec.gussets) add_gussets(build_, bones);
    if (spec.cross_bars) add_cross_bars(build_, bones);
    if (spec.braces) add_braces(build_, bones);
  }

  [[nodiscard]] Ring ring(const Ids& ids, Side level) const {
    const Lying& is = lying_[level];
    return {is.tube, is.wide, is.high, low_z(level), ids, {}};
  }
  [[nodiscard]] double low_z(Side level) const { return level == low ? 0 : shell_.size.z - lying_[high].high; }

  // Items stand between the tubes, so that nothing of the top ring is over them.
  void size_shell() {
    const Vec2 walls = upright_walls(upright_);
    const Vec3 inside = build_.box.inside;
    shell_.side_wall_mm = std::max(widest_, walls.x);
    shell_.end_wall_mm = std::max(widest_, walls.y);
    shell_.deck_mm = lying_[low].high;
    shell_.size = {inside.x + 2 * shell_.side_wall_mm, inside.y + 2 * shell_.end_wall_mm, 0};
    shell_.rail_inset_mm = lying_[low].round + before_round_mm;
    const bool post = upright_.shape == SectionShape::tube;
    shell_.rail_beside_mm = {shell_.side_wall_mm + beside_wall_mm,
                             std::max(shell_.end_wall_mm, post ? upright_size(upright_).y : 0) + beside_wall_mm};
    shell_.landing_mm = landing_mm();
    shell_.deck_root_mm = lying_[low].round;
    shell_.top_root_mm = lying_[high].round;
    shell_.weld_gap_mm = gap_;
    shell_.floor_mm = shell_.deck_mm + build_.box_spec().rails.thickness->mm();
    shell_.deck = decks({});
    if (!needs_rails(build_)) shell_.floor_mm = shell_.deck_mm;
    shell_.size.z = shell_.floor_mm + inside.z;
    // A plate that takes of the inside lies where the tubes are flat, above the rest of it.
    if (set_in_mm(build_.spec, build_.box_spec(), Face::top) > 0) shell_.size.z += lying_[high].round;
    shell_.opening_z = {lying_[low].high, low_z(high) - gap_};
    // Strips at the face stand under the rounding of the top ring, and reach up into it.
    shell_.landing_z = {lying_[low].high,
                        shell_.opening_z[high] + std::min(gap_, drop_mm(lying_[high], shell_.landing_mm))};
  }

  // How far the rounding is below the flat, this far from the tube's side.
  [[nodiscard]] static double drop_mm(const Lying& is, double from_side) {
    const double w = std::max(0.0, is.round - from_side);
    return is.round - std::sqrt(is.round * is.round - w * w);
  }

  // As thick as the uprights beside them, and so thick that the weld's gap bridges the tube's rounding under them.
  [[nodiscard]] double landing_mm() const {
    const auto reach_of = [&](const Lying& is) { return drop_mm(is, std::min(gap_, is.round)); };
    const double reach = std::max(reach_of(lying_[low]), reach_of(lying_[high]));
    return std::max(upright_.thickness_mm, std::ceil(reach - tolerance::contact_mm));
  }

  bool members_apart() { return members_apart(low) && members_apart(high); }

  bool members_apart(Side level) {
    const Vec3 size = shell_.size;
    const Lying& is = lying_[level];
    const double least = 2 * is.wide + stub_mm(*is.tube) + 2 * gap_;
    const bool wide = size.x >= least - tolerance::contact_mm;
    if (wide && size.y >= least - tolerance::contact_mm) return true;
    const Sourced<std::string>& section = section_of(level);
    build_.diagnostics.add(diag::say<"members-meet">(section.place, build_.in_words(wide ? size.y : size.x),
                                                     wide ? "deep" : "wide", *section, build_.at_least(least)));
    return false;
  }

  struct Line {
    const char* name;
    const char* side;
    Vec3 begin;  // of the heel's line at the bottom, either way along it
    Vec3 end;
    Vec3 inward;
  };

  // Leg A lies or, where the longer side stands, stands up; a pose is proper, so that it decides which way the line
  // runs.
  [[nodiscard]] static Pose pose_of(const Lying& is, const Line& line) {
    const bool a_lies = lying_leg(is) == Leg::a;
    const Vec3 x = a_lies ? line.inward : axis::z;
    const Vec3 y = a_lies ? axis::z : line.inward;
    return Pose::at(dot(cross(x, y), line.end - line.begin) > 0 ? line.begin : line.end, x, y);
  }
  [[nodiscard]] static Leg lying_leg(const Lying& is) {
    return std::abs(is.tube->leg_a_mm - is.wide) < tolerance::contact_mm ? Leg::a : Leg::b;
  }

  [[nodiscard]] std::array<Line, 4> lines(Side level) const {
    const Vec3 s = shell_.size;
    const double from = side_begins_mm(level);
    const double z = low_z(level);
    return {Line{"front", "front", {0, 0, z}, {s.x, 0, z}, axis::y},
            Line{"back", "back", {0, s.y, z}, {s.x, s.y, z}, axis::minus_y},
            Line{"side", "left", {0, from, z}, {0, s.y - from, z}, axis::x},
            Line{"side", "right", {s.x, from, z}, {s.x, s.y - from, z}, axis::minus_x}};
  }

  // Along the front and the back run two members from side to side, the others stand square between them.
  [[nodiscard]] double side_begins_mm(Side level) const { return mitred_ ? 0 : lying_[level].wide + gap_; }

  [[nodiscard]] const Sourced<std::string>& section_of(Side level) const {
    const FrameSpec& frame = build_.box_spec().frame;
    return level == high && frame.top_section.given ? frame.top_section : frame.section;
  }

  static const char* word(Side level) { return level == low ? "bottom" : "top"; }

  std::optional<Ids> add_ring(Side level) {
    const Section& tube = *lying_[level].tube;
    Ids ids{};
    int number = level == high ? 5 : 1;
    for (std::size_t i = 0; const Line& line : lines(level)) {
      Member member{tube, norm(line.end - line.begin), square_cut(tube), square_cut(tube), {}};
      Pose pose = pose_of(lying_[level], line);
      const std::string instance = fmt::format("{} ring member {}", word(level), line.side);
      if (mitred_) {
        const EndCutOptions options{gap_, CornerKind::chamfer, build_.spec.units};
        const EndCutResult cut = mitre_ends(member, pose, lying_leg(lying_[level]), options);
        if (!cut.ok) {
          build_.diagnostics.add(diag::say<"end-cut">(section_of(level).place, instance, cut.problem));
          return std::nullopt;
        }
      }
      ids[i++] = add_sawn(
          build_,
          {fmt::format("TUB{:02}", number++), fmt::format("{} ring member", line.name), instance, Role::ring_member},
          member, pose);
    }
    weld_ring(ids);
    offer(ids, level);
    if (!mitred_) add_caps(ids, level);
    return ids;
  }

  void weld_ring(const Ids& ids) {
    for (const Side side : {low, high}) {
      for (const Side face : {low, high}) {
        Vec3 normal = face == low ? axis::minus_y : axis::y;
        if (mitred_) normal = std::sqrt(0.5) * (normal + (side == low ? axis::x : axis::minus_x));
        build_.draft.join(ids[2U + side], ids[face], JointKind::weld, normal, gap_);
      }
    }
  }

  // Set into the open ends of the members that run through.
  void add_caps(const Ids& ids, Side level) {
    const Vec3 s = shell_.size;
    const Lying& is = lying_[level];
    const double z = low_z(level);
    const double in = is.wall + cap_fit_mm;
    const double set_in = in;  // so that its bead ends at the tube's mouth (common practice)
    for (const Side face : {low, high}) {
      for (const Side side : {low, high}) {
        const double y = face == low ? 0 : s.y - is.wide;
        const double x = side == low ? set_in : s.x - set_in - is.wall;
        const Box3 box{{x, y + in, z + in}, {x + is.wall, y + is.wide - in, z + is.high - in}};
        const InstanceId id = add_plate(
            build_, {"PLT05", "tube cap", Role::cap, material_of(build_)}, box, axis::x,
            fmt::format("{} cap {} {}", word(level), face == low ? "front" : "back", side == low ? "left" : "right"),
            {build_.key("frame"), section_of(level).place, "frame"});
        Profile& profile = std::get<Flat>(build_.draft.part(id).form).profile;
        profile.outer = Loop::rounded_rectangle({0, 0}, profile.bounds().size(), std::max(0.0, is.round - in));
        for (const Vec3 wall : {axis::z, axis::minus_z, axis::y, axis::minus_y}) {
          build_.draft.join(id, ids[face], JointKind::weld, wall, cap_fit_mm);
        }
      }
    }
  }

  [[nodiscard]] Host host(InstanceId id, const Box3& box, Side level) const {
    return {id, box, lying_[level].wall, lying_[level].round};
  }

  // The whole of each member, as far as it is not mitred away on its inner side.
  [[nodiscard]] std::array<Box3, 4> boxes(Side level) const {
    const Vec3 s = shell_.size;
    const double from = side_begins_mm(level);
    const double wide = lying_[level].wide;
    const double z = low_z(level);
    const double top = z + lying_[level].high;
    return {Box3{{0, 0, z}, {s.x, wide, top}}, Box3{{0, s.y - wide, z}, {s.x, s.y, top}},
            Box3{{0, from, z}, {wide, s.y - from, top}}, Box3{{s.x - wide, from, z}, {s.x, s.y - from, top}}};
  }

  // The flats on which rails and items may lie.
  [[nodiscard]] std::vector<Host> decks(const Ids& ids) const {
    const Vec3 s = shell_.size;
    const Lying& is = lying_[low];
    const double end = is.wide + gap_;
    const double from = mitred_ ? end : 0;
    const double a = is.round;
    const double b = is.wide - is.round;
    return {host(ids[0], {{from, a, 0}, {s.x - from, b, is.high}}, low),
            host(ids[1], {{from, s.y - b, 0}, {s.x - from, s.y - a, is.high}}, low),
            host(ids[2], {{a, end, 0}, {b, s.y - end, is.high}}, low),
            host(ids[3], {{s.x - b, end, 0}, {s.x - a, s.y - end, is.high}}, low)};
  }

  void offer(const Ids& ids, Side level) {
    const auto all = boxes(level);
    const auto beside = [&](Face face, const Host& h) { shell_.beside[static_cast<std::size_t>(face)].push_back(h); };
    const bool top = level == high;
    auto& strips = top ? shell_.top : shell_.bottom;
    strips = {host(ids[0], all[0], level), host(ids[1], all[1], level)};
    beside(Face::front, strips[low]);
    beside(Face::back, strips[high]);
    for (std::size_t i = 0; i < 4; ++i) beside(top ? Face::top : Face::bottom, host(ids[i], all[i], level));
    for (const Side side : {low, high}) {
      const Face face = side == low ? Face::left : Face::right;
      const Host member = host(ids[2U + side], all[2U + side], level);
      beside(face, member);
      if (top) shell_.top_side_deck[side] = member;
      if (!mitred_) offer_ends(strips, face, side);
    }
    if (top) shell_.top_face_deck = strips;
    if (!top) shell_.deck = decks(ids);
  }

  // Sawn square, they lie in the side's plane.
  void offer_ends(const std::array<Host, 2>& strips, Face face, Side side) {
    for (Host end : strips) {
      if (side == low) end.box.high.x = end.wall_mm;
      if (side == high) end.box.low.x = shell_.size.x - end.wall_mm;
      end.row = false;
      shell_.beside[static_cast<std::size_t>(face)].push_back(end);
    }
  }

  [[nodiscard]] Ground ground(const Ids& ids, Side level) const {
    constexpr double far = 1e6;  // beyond any upright
    const Lying& is = lying_[level];
    const double by = gap_ / std::sqrt(2.0);
    const double gap = level == low ? 0 : gap_;
    Ground g{level == low ? is.high : low_z(high) - gap, gap, {}, {}, {ids[0], ids[1]}, {ids[2], ids[3]}};
    g.face = {{{0, is.round}, {far, is.wide - is.round}}, mitred_ ? Flat2::Cut::keeps_x : Flat2::Cut::none, by};
    g.side = {{{is.round, side_begins_mm(level)}, {is.wide - is.round, far}},
              mitred_ ? Flat2::Cut::keeps_y : Flat2::Cut::none,
              by};
    return g;
  }

  Build& build_;
  Shell& shell_;
  std::array<Lying, 2> lying_;  // bottom, top
  double widest_;
  const Section& upright_;
  double gap_;
  bool mitred_;
};

}  // namespace

bool build_tube_frame(Build& build, const Section& bottom, const Section& top, const Section& upright) {
  return TubeFrame(build, bottom, top, upright).run();
}

}  // namespace fitup::plan

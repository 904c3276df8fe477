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

class TubeFrame {
 public:
  TubeFrame(Build& build, const Section& tube, const Section& upright)
      : build_(build),
        shell_(build.shell),
        tube_(tube),
        upright_(upright),
        wide_(lying_mm(tube, *build.box_spec().frame.long_side)),
        high_(tube.leg_a_mm + tube.leg_b_mm - wide_),
        round_(tube.corner_radius_mm),
        gap_(build.box_spec().frame.cope_gap->mm()),
        mitred_(*build.box_spec().frame.corners == Corners::mitred) {}

  bool run() {
    size_shell();
    if (!members_apart() || !square_uprights_apart(build_, upright_)) return false;
    const auto bottom = add_ring(false);
    if (!bottom) return false;
    const auto top = add_ring(true);
    if (!top) return false;
    if (!add_square_uprights(build_, upright_, ground(*bottom, high_, 0),
                             ground(*top, shell_.size.z - high_ - gap_, gap_)))
      return false;
    stiffen(*bottom, *top);
    return true;
  }

 private:
  using Ids = std::array<InstanceId, 4>;  // front, back, left, right

  // Rails keep off the gussets, and cross bars are as many as rails ask for.
  void stiffen(const Ids& bottom, const Ids& top) {
    const Bones bones{{Ring{&tube_, wide_, high_, 0, bottom, {}},
                       Ring{&tube_, wide_, high_, shell_.size.z - high_, top, {}}},
                      false,
                      mitred_ ? Corners::mitred : Corners::butted,
                      {gap_, CornerKind::chamfer, build_.spec.units}};
    const FrameSpec& spec = build_.box_spec().frame;
    if (spec.gussets) add_gussets(build_, bones);
    if (spec.cross_bars) add_cross_bars(build_, bones);
  }

  // Items stand between the tubes, so that nothing of the top ring is over them.
  void size_shell() {
    const Vec2 walls = upright_walls(upright_);
    const Vec3 inside = build_.box.inside;
    shell_.side_wall_mm = std::max(wide_, walls.x);
    shell_.end_wall_mm = std::max(wide_, walls.y);
    shell_.deck_mm = high_;
    shell_.size = {inside.x + 2 * shell_.side_wall_mm, inside.y + 2 * shell_.end_wall_mm, 0};
    shell_.rail_inset_mm = round_ + before_round_mm;
    const bool post = upright_.shape == SectionShape::tube;
    shell_.rail_beside_mm = {shell_.side_wall_mm + beside_wall_mm,
                             std::max(shell_.end_wall_mm, post ? upright_size(upright_).y : 0) + beside_wall_mm};
    shell_.landing_mm = landing_mm();
    shell_.deck_root_mm = round_;
    shell_.top_root_mm = round_;
    shell_.weld_gap_mm = gap_;
    shell_.floor_mm = shell_.deck_mm + build_.box_spec().rails.thickness->mm();
    shell_.deck = decks({});
    if (!needs_rails(build_)) shell_.floor_mm = shell_.deck_mm;
    shell_.size.z = shell_.floor_mm + inside.z;
    // A plate that takes of the inside lies where the tubes are flat, above the rest of it.
    if (set_in_mm(build_.spec, build_.box_spec(), Face::top) > 0) shell_.size.z += round_;
    shell_.opening_z = {high_, shell_.size.z - high_ - gap_};
    // Strips at the face stand under the rounding of the top ring, and reach up into it.
    shell_.landing_z = {high_, shell_.opening_z[high] + std::min(gap_, drop_mm(shell_.landing_mm))};
  }

  // How far the rounding is below the flat, this far from the tube's side.
  [[nodiscard]] double drop_mm(double from_side) const {
    const double w = std::max(0.0, round_ - from_side);
    return round_ - std::sqrt(round_ * round_ - w * w);
  }

  // As thick as the uprights beside them, and so thick that the weld's gap bridges the tube's rounding under them.
  [[nodiscard]] double landing_mm() const {
    const double bridged = std::min(gap_, round_);
    const double reach = round_ - std::sqrt(round_ * round_ - (round_ - bridged) * (round_ - bridged));
    return std::max(upright_.thickness_mm, std::ceil(reach - tolerance::contact_mm));
  }

  bool members_apart() {
    const Vec3 size = shell_.size;
    const double least = 2 * wide_ + stub_mm(tube_) + 2 * gap_;
    const bool wide = size.x >= least - tolerance::contact_mm;
    if (wide && size.y >= least - tolerance::contact_mm) return true;
    const Sourced<std::string>& section = build_.box_spec().frame.section;
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
  [[nodiscard]] Pose pose_of(const Line& line) const {
    const bool a_lies = std::abs(tube_.leg_a_mm - wide_) < tolerance::contact_mm;
    const Vec3 x = a_lies ? line.inward : axis::z;
    const Vec3 y = a_lies ? axis::z : line.inward;
    return Pose::at(dot(cross(x, y), line.end - line.begin) > 0 ? line.begin : line.end, x, y);
  }
  [[nodiscard]] Leg lying_leg() const {
    return std::abs(tube_.leg_a_mm - wide_) < tolerance::contact_mm ? Leg::a : Leg::b;
  }

  [[nodiscard]] std::array<Line, 4> lines(double z) const {
    const Vec3 s = shell_.size;
    const double from = side_begins_mm();
    return {Line{"front", "front", {0, 0, z}, {s.x, 0, z}, axis::y},
            Line{"back", "back", {0, s.y, z}, {s.x, s.y, z}, axis::minus_y},
            Line{"side", "left", {0, from, z}, {0, s.y - from, z}, axis::x},
            Line{"side", "right", {s.x, from, z}, {s.x, s.y - from, z}, axis::minus_x}};
  }

  // Along the front and the back run two members from side to side, the others stand square between them.
  [[nodiscard]] double side_begins_mm() const { return mitred_ ? 0 : wide_ + gap_; }

  std::optional<Ids> add_ring(bool top) {
    const double z = top ? shell_.size.z - high_ : 0;
    const char* level = top ? "top" : "bottom";
    Ids ids{};
    int number = top ? 5 : 1;
    for (std::size_t i = 0; const Line& line : lines(z)) {
      Member member{tube_, norm(line.end - line.begin), square_cut(tube_), square_cut(tube_), {}};
      Pose pose = pose_of(line);
      const std::string instance = fmt::format("{} ring member {}", level, line.side);
      if (mitred_) {
        const EndCutOptions options{gap_, CornerKind::chamfer, build_.spec.units};
        const EndCutResult cut = mitre_ends(member, pose, lying_leg(), options);
        if (!cut.ok) {
          build_.diagnostics.add(diag::say<"end-cut">(build_.box_spec().frame.section.place, instance, cut.problem));
          return std::nullopt;
        }
      }
      ids[i++] = add_sawn(
          build_,
          {fmt::format("TUB{:02}", number++), fmt::format("{} ring member", line.name), instance, Role::ring_member},
          member, pose);
    }
    weld_ring(ids);
    offer(ids, top);
    if (!mitred_) add_caps(ids, z, level);
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
  void add_caps(const Ids& ids, double z, const char* level) {
    const Vec3 s = shell_.size;
    const double in = tube_.thickness_mm + cap_fit_mm;
    const double set_in = tube_.thickness_mm + cap_fit_mm;  // so that its bead ends at the tube's mouth (common practice)
    for (const Side face : {low, high}) {
      for (const Side side : {low, high}) {
        const double y = face == low ? 0 : s.y - wide_;
        const double x = side == low ? set_in : s.x - set_in - tube_.thickness_mm;
        const Box3 box{{x, y + in, z + in}, {x + tube_.thickness_mm, y + wide_ - in, z + high_ - in}};
        const InstanceId id = add_plate(
            build_, {"PLT05", "tube cap", Role::cap, material_of(build_)}, box, axis::x,
            fmt::format("{} cap {} {}", level, face == low ? "front" : "back", side == low ? "left" : "right"),
            {build_.key("frame"), build_.box_spec().frame.section.place, "frame"});
        Profile& profile = std::get<Flat>(build_.draft.part(id).form).profile;
        profile.outer = Loop::rounded_rectangle({0, 0}, profile.bounds().size(), std::max(0.0, round_ - in));
        for (const Vec3 wall : {axis::z, axis::minus_z, axis::y, axis::minus_y}) {
          build_.draft.join(id, ids[face], JointKind::weld, wall, cap_fit_mm);
        }
      }
    }
  }

  [[nodiscard]] Host host(InstanceId id, const Box3& box) const { return {id, box, tube_.thickness_mm, round_}; }

  // The whole of each member, as far as it is not mitred away on its inner side.
  [[nodiscard]] std::array<Box3, 4> boxes(double z) const {
    const Vec3 s = shell_.size;
    const double from = side_begins_mm();
    return {Box3{{0, 0, z}, {s.x, wide_, z + high_}}, Box3{{0, s.y - wide_, z}, {s.x, s.y, z + high_}},
            Box3{{0, from, z}, {wide_, s.y - from, z + high_}},
            Box3{{s.x - wide_, from, z}, {s.x, s.y - from, z + high_}}};
  }

  // The flats on which rails and items may lie.
  [[nodiscard]] std::vector<Host> decks(const Ids& ids) const {
    const Vec3 s = shell_.size;
    const double end = wide_ + gap_;
    const double from = mitred_ ? end : 0;
    const double a = round_;
    const double b = wide_ - round_;
    return {host(ids[0], {{from, a, 0}, {s.x - from, b, high_}}),
            host(ids[1], {{from, s.y - b, 0}, {s.x - from, s.y - a, high_}}),
            host(ids[2], {{a, end, 0}, {b, s.y - end, high_}}),
            host(ids[3], {{s.x - b, end, 0}, {s.x - a, s.y - end, high_}})};
  }

  void offer(const Ids& ids, bool top) {
    const double z = top ? shell_.size.z - high_ : 0;
    const auto all = boxes(z);
    const auto beside = [&](Face face, const Host& h) { shell_.beside[static_cast<std::size_t>(face)].push_back(h); };
    auto& strips = top ? shell_.top : shell_.bottom;
    strips = {host(ids[0], all[0]), host(ids[1], all[1])};
    beside(Face::front, strips[low]);
    beside(Face::back, strips[high]);
    for (std::size_t i = 0; i < 4; ++i) beside(top ? Face::top : Face::bottom, host(ids[i], all[i]));
    for (const Side side : {low, high}) {
      const Face face = side == low ? Face::left : Face::right;
      beside(face, host(ids[2U + side], all[2U + side]));
      if (!mitred_) offer_ends(ids, all, face, side);
    }
    if (top) {
      shell_.top_face_deck = strips;
      shell_.top_side_deck = {host(ids[2], all[2]), host(ids[3], all[3])};
    } else {
      shell_.deck = decks(ids);
    }
  }

  // Sawn square, they lie in the side's plane.
  void offer_ends(const Ids& ids, const std::array<Box3, 4>& all, Face face, Side side) {
    const double t = tube_.thickness_mm;
    for (const Side depth : {low, high}) {
      Host end = host(ids[depth], all[depth]);
      if (side == low) end.box.high.x = t;
      if (side == high) end.box.low.x = shell_.size.x - t;
      end.row = false;
      shell_.beside[static_cast<std::size_t>(face)].push_back(end);
    }
  }

  [[nodiscard]] Ground ground(const Ids& ids, double z, double gap) const {
    constexpr double far = 1e6;  // beyond any upright
    const double by = gap_ / std::sqrt(2.0);
    Ground g{z, gap, {}, {}, {ids[0], ids[1]}, {ids[2], ids[3]}};
    g.face = {{{0, round_}, {far, wide_ - round_}}, mitred_ ? Flat2::Cut::keeps_x : Flat2::Cut::none, by};
    g.side = {
        {{round_, side_begins_mm()}, {wide_ - round_, far}}, mitred_ ? Flat2::Cut::keeps_y : Flat2::Cut::none, by};
    return g;
  }

  Build& build_;
  Shell& shell_;
  const Section& tube_;
  const Section& upright_;
  double wide_;  // across the ring
  double high_;
  double round_;  // radius of its corners
  double gap_;
  bool mitred_;
};

}  // namespace

bool build_tube_frame(Build& build, const Section& tube, const Section& upright) {
  return TubeFrame(build, tube, upright).run();
}

}  // namespace fitup::plan

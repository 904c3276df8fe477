// The welded frame of angle: bottom ring, top ring, flat uprights in the side planes, each end cut derived.
// Entry: build_of_sections.
#include <algorithm>
#include <array>
#include <cmath>

#include <fmt/format.h>

#include "diag/catalogue.h"
#include "fitup/tolerances.h"
#include "plan/build.h"
#include "plan/end_cut.h"
#include "plan/framed/angle_rings.h"
#include "plan/framed/stiffening.h"
#include "plan/framed/tube_rings.h"
#include "plan/landing_width.h"

namespace fitup::plan {

namespace {

class Frame {
 public:
  Frame(Build& build, const Section& bottom, const Section& top, const Section& flat)
      : build_(build),
        rings_(build, bottom, top, {build.key("frame"), build.box_spec().frame.section.place, "frame"}),
        flat_(flat),
        up_(rings_.up),
        corners_(rings_.corners),
        options_(rings_.options) {}

  bool run() {
    size_shell();
    const FrameSpec& spec = build_.box_spec().frame;
    if (!rings_.members_apart(spec.section, spec.top_section) || !square_uprights_apart(build_, flat_)) return false;
    if (!rings_.add(low) || !rings_.add(high)) return false;
    // Behind its bevel a mitred side member may come out beside the upright.
    const bool comes_out =
        bottom().thickness_mm() - rings_.mitre_back_mm() > flat_.thickness_mm + tolerance::contact_mm;
    if (corners_ == Corners::mitred && !up_ && comes_out) build_.shell.corner_deck = {bottom().ids[2], bottom().ids[3]};
    if (!add_uprights()) return false;
    stiffen();
    return true;
  }

 private:
  [[nodiscard]] const Ring& bottom() const { return rings_.bottom(); }
  [[nodiscard]] const Ring& top() const { return rings_.top(); }

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
    shell.landing_mm = landing_thickness_mm(build_, t);
    shell.deck_root_mm = bottom().root_mm();
    shell.deck_toe_mm = up_ ? std::min(bottom().section->toe_radius_mm, t) : 0;
    shell.top_root_mm = top().root_mm();
    shell.weld_gap_mm = options_.gap_mm;
    shell.toes_down = !up_;
    shell.floor_mm = shell.deck_mm + build_.box_spec().rails.thickness->mm();
    shell.deck = rings_.horizontal_legs(low, shell.deck_mm - t);
    if (!needs_rails(build_)) shell.floor_mm = shell.deck_mm;
    shell.size.z = shell.floor_mm + inside.z + top().thickness_mm();
    rings_.rings[high].low_z = shell.size.z - top().standing_mm;
    shell.opening_z = {up_ ? leg + options_.gap_mm : leg, rings_.rings[high].low_z - options_.gap_mm};
    shell.landing_z = shell.opening_z;
  }

  void stiffen() {
    Bones bones{rings_.rings, up_, corners_, options_};
    for (Ring& ring : bones.rings) {
      for (std::size_t i = 0; i < ring.ids.size(); ++i) ring.obstacles[i] = rings_.obstacle_of(ring.ids[i]);
    }
    const FrameSpec& spec = build_.box_spec().frame;
    if (spec.cross_bars) add_cross_bars(build_, bones);
    if (spec.gussets) add_gussets(build_, bones);
    if (spec.braces) add_braces(build_, bones);
  }

  bool add_uprights() {
    if (flat_.shape != SectionShape::flat)
      return add_square_uprights(build_, flat_, rings_.ground(low), rings_.ground(high));
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
    const auto id = rings_.add_member(line, flat_, earlier);
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

  // A mitred front or back member comes over an upright only where the upright is thicker than that.
  [[nodiscard]] bool meets_face_member() const {
    return corners_ != Corners::mitred || flat_.thickness_mm > rings_.mitre_back_mm() + tolerance::contact_mm;
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

  Build& build_;
  AngleRings rings_;
  const Section& flat_;
  bool up_;
  Corners corners_;
  EndCutOptions options_;
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
  if (!takes_top_section(build, *angle, *top)) return false;
  if (angle->shape == SectionShape::tube) return build_tube_frame(build, *angle, *top, *flat);
  return Frame(build, *angle, *top, *flat).run();
}

}  // namespace fitup::plan

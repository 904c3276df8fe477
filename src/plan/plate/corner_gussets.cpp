// Gussets between the top of a box of plates and its left and right walls: their shape, and where they find room.
// Entry: add_corner_gussets.
#include "plan/plate/corner_gussets.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "diag/catalogue.h"
#include "fitup/tolerances.h"
#include "plan/face_axes.h"
#include "plan/gusset_part.h"
#include "plan/plate/gusset_shape.h"
#include "plan/plate/joints.h"
#include "plan/plate/shell.h"
#include "plan/plate/walls.h"
#include "plan/room.h"
#include "plan/rule_steps.h"

namespace fitup::plan {

namespace {

using plate::GussetShape;
using plate::JointFit;
using plate::Stretch;

constexpr double beside_bead_mm = 2;  // from the bead to what is beside it (common practice)
constexpr double beside_items_mm = 1;  // of what goes in by hand (common practice)
constexpr double far_mm = 1e5;
constexpr double leg_step_mm = 1;
constexpr double least_leg_mm = 20;  // of the key

Box3 grown(Box3 box, Vec3 by) { return {box.low - by, box.high + by}; }

class CornerGussets {
 public:
  explicit CornerGussets(Build& build)
      : build_(build),
        spec_(*build.box_spec().frame.gussets),
        sheet_mm_(plate::sheets_of(build).t_mm),
        thickness_(spec_.thickness ? (*spec_.thickness)->mm() : sheet_mm_),
        steel_(tables::find_material(material_of(build))->steel) {
    find_hosts();
    find_obstacles();
  }

  void run() {
    std::array<double, 2> places{};
    for (const Side depth : {low, high}) {
      const auto place = place_of(spec_.leg->mm(), depth);
      if (!place) return say_no_room(depth);
      places[depth] = *place;
    }
    for (const Side side : {low, high}) {
      for (const Side depth : {low, high}) add(side, depth, places[depth]);
    }
  }

 private:
  [[nodiscard]] const CutRules& rules() const { return build_.spec.cutter.rules; }
  [[nodiscard]] Vec3 size() const { return build_.shell.size; }
  [[nodiscard]] double web_mm() const { return std::max(rules().smallest_web, rules().asked_below) * sheet_mm_; }
  [[nodiscard]] JointFit fit() const { return plate::joint_fit(thickness_, steel_, rules().tolerance); }
  [[nodiscard]] double relief_mm() const { return plate::relief_mm(sheet_mm_, rules().inner_radius_mm); }
  [[nodiscard]] GussetShape shape(double leg) const {
    return {leg, thickness_, sheet_mm_, web_mm() + fit().longer_mm() / 2 + relief_mm(),
            plate::relief_mm(thickness_, rules().inner_radius_mm)};
  }

  void find_hosts() {
    const Shell& shell = build_.shell;
    top_ = shell.top_side_deck[low].id;
    for (const Side side : {low, high}) wall_[side] = shell.upright[low][side].id;
  }

  // ---- where there is room

  void find_obstacles() {
    for (const Taken& taken : taken_by_steel(build_.draft)) {
      if (taken.id == top_ || taken.id == wall_[low] || taken.id == wall_[high]) continue;
      const double bead = thickness_ + beside_bead_mm;
      obstacles_.push_back(grown(taken.box, {0, bead, 0}));
      const Role role = build_.draft.part(taken.id).role;
      if (role != Role::rod_plate && role != Role::rod_plate_flange) continue;
      const Side depth = taken.box.middle().y < size().y / 2 ? low : high;
      obstacles_.push_back(out_through(depth == low ? Face::front : Face::back, obstacles_.back()));
    }
    for (InstanceId id = 0; id < build_.draft.size(); ++id) {
      const Role role = build_.draft.part(id).role;
      if (role == Role::item || role == Role::rod) add_on_its_way(id);
    }
    for (const Zone& zone : build_.draft.zones) obstacles_.push_back(zone.box);
  }

  void add_on_its_way(InstanceId id) {
    Box3 box;
    for (const Prism& prism : body_of(build_.draft.part(id)).outer) {
      box.add(Prism{prism.profile, build_.draft.instance(id).pose * prism.pose, prism.length_mm}.bounds());
    }
    box = grown(box, {beside_items_mm, beside_items_mm, beside_items_mm});
    obstacles_.push_back(box);
    for (const Face face : all_faces) {
      if (*build_.box_spec().face(face).entry) obstacles_.push_back(out_through(face, box));
    }
  }

  [[nodiscard]] static Box3 out_through(Face face, Box3 box) {
    along(side_of(face) == low ? box.low : box.high, axis_of(face)) = side_of(face) == low ? -far_mm : far_mm;
    return box;
  }

  // How far from the front or the back the gusset begins: beside the relieved joints of what stands there.
  [[nodiscard]] double first_place() const {
    const JointFit ends = plate::joint_fit(sheet_mm_, steel_, rules().tolerance);
    const double notch = (ends.thickness_mm + ends.slot_mm()) / 2;
    return notch + relief_mm() + web_mm() + (fit().slot_mm() - thickness_) / 2;
  }

  [[nodiscard]] std::optional<double> place_of(double leg, Side depth) const {
    if (shape(leg).tabs().empty()) return std::nullopt;
    const double step = steps_of(*build_.spec.section(*build_.box_spec().frame.section)).place_mm;
    const double last = size().y / 2 - thickness_;
    for (double at = rounded_up(first_place(), step); at <= last; at += step) {
      if (is_free(leg, low, depth, at) && is_free(leg, high, depth, at)) return at;
    }
    return std::nullopt;
  }

  // Along Y, of a place that is counted from the front or the back.
  [[nodiscard]] Box3 around(Side depth, double at) const {
    const double low_y = depth == low ? at : size().y - at - thickness_;
    return {{0, low_y, 0}, {0, low_y + thickness_, 0}};
  }

  [[nodiscard]] bool is_free(double leg, Side side, Side depth, double at) const {
    const Box3 own = around(depth, at);
    const GussetShape own_shape = shape(leg);
    const auto meets = [&](const Box3& box) {
      if (box.high.y <= own.low.y || box.low.y >= own.high.y) return false;
      const double beside = side == low ? box.low.x - sheet_mm_ : size().x - sheet_mm_ - box.high.x;
      const double behind = side == low ? box.high.x - sheet_mm_ : size().x - sheet_mm_ - box.low.x;
      if (behind <= 0 || box.low.z >= size().z - sheet_mm_) return false;
      return own_shape.reaches(beside, size().z - sheet_mm_ - box.high.z);
    };
    if (std::any_of(obstacles_.begin(), obstacles_.end(), meets)) return false;
    const double s = own_shape.snipe_mm();
    const double x = side == low ? sheet_mm_ : size().x - sheet_mm_;
    const double inward = side == low ? 1 : -1;
    Box3 on_top;
    on_top.add(Vec3{x + inward * s, own.low.y, size().z});
    on_top.add(Vec3{x + inward * leg, own.high.y, size().z});
    const Box3 on_wall{{x, own.low.y, size().z - sheet_mm_ - leg}, {x, own.high.y, size().z - sheet_mm_ - s}};
    return is_whole(top_, on_top) && is_whole(wall_[side], on_wall);
  }

  // Of a plate, what lies under a seam and beside it.
  [[nodiscard]] bool is_whole(InstanceId plate, const Box3& seam) const {
    const Profile& profile = std::get<Flat>(build_.draft.part(plate).form).profile;
    const Pose& pose = build_.draft.instance(plate).pose;
    Box2 land;
    const double beside = std::max(thickness_ + beside_bead_mm, web_mm() + fit().slot_mm() - thickness_);
    for (const Vec3 corner : {pose.local(seam.low), pose.local(seam.high)}) land.add({corner.x, corner.y});
    land = {land.low - Vec2{beside, beside}, land.high + Vec2{beside, beside}};
    return std::none_of(profile.holes.begin(), profile.holes.end(), [&](const Loop& hole) {
      const Box2 b = hole.bounds();
      return b.high.x > land.low.x && b.low.x < land.high.x && b.high.y > land.low.y && b.low.y < land.high.y;
    });
  }

  void say_no_room(Side depth) const {
    const double least = std::max(least_leg_mm, shape(0).least_leg_mm());
    const std::string why = fmt::format(
        "under the top, in its corners with the left and the right wall, it has no room in the {} half of the box beside "
        "what stands and goes in there, its holes and seams",
        depth == low ? "front" : "back");
    const auto say = [&](const std::string& wants, const std::string& leg) {
      build_.diagnostics.add(
          diag::say<"gusset-leg">(spec_.leg.place, build_.in_words(spec_.leg->mm()), why, wants, leg));
    };
    if (spec_.leg->mm() < least) return say("at least", build_.at_least(least));
    for (double leg = std::floor(spec_.leg->mm() - leg_step_mm); leg >= least; leg -= leg_step_mm) {
      if (place_of(leg, low) && place_of(leg, high)) return say("at most", build_.at_most(leg));
    }
    say("shorter than", fmt::format("{}, where its tab has no room: leave frame.gussets out, or make clearance.top larger",
                                    build_.in_words(least)));
  }

  // ---- what is built

  void add(Side side, Side depth, double at) {
    const Box3 own = around(depth, at);
    const Vec3 away = side == low ? axis::x : axis::minus_x;
    const Vec3 corner{side == low ? sheet_mm_ : size().x - sheet_mm_, side == low ? own.low.y : own.high.y,
                      size().z - sheet_mm_};
    Part part = gusset_part(shape(spec_.leg->mm()).profile(tab_out_mm()), thickness_, material_of(build_));
    const std::string name =
        fmt::format("gusset {} {}", depth == low ? "front" : "back", side == low ? "left" : "right");
    const InstanceId id = build_.draft.add(std::move(part), Pose::at(corner, away, axis::minus_z), name,
                                           {build_.key("frame.gussets"), spec_.place, "frame"});
    build_.draft.join(id, wall_[side], JointKind::weld, Vec3{} - away);
    build_.draft.join(id, top_, JointKind::weld, axis::z);
    for (const Stretch& tab : shape(spec_.leg->mm()).tabs()) let_through(side, own, tab);
    set_up(id, side, away);
  }

  // From the wall's inner side; none stands out where a cover's flange may lie.
  [[nodiscard]] double tab_out_mm() const {
    const double some = std::clamp(sheet_mm_ / 3, 1.0, 2.0);
    return sheet_mm_ - (*build_.box_spec().plates.tabs == Tabs::short_of ? some : 0);
  }

  void let_through(Side side, const Box3& own, const Stretch& tab) {
    const double under = size().z - sheet_mm_;
    const double wider = (fit().slot_mm() - thickness_) / 2;
    const double longer = fit().longer_mm() / 2;
    const Pose& pose = build_.draft.instance(wall_[side]).pose;
    Box2 slot;
    for (const Vec3 at : {Vec3{0, own.low.y - wider, under - tab.to_mm - longer},
                          Vec3{0, own.high.y + wider, under - tab.from_mm + longer}}) {
      const Vec3 local = pose.local(at);
      slot.add({local.x, local.y});
    }
    std::get<Flat>(build_.draft.part(wall_[side]).form)
        .profile.holes.push_back(
            plate::closed_slot(slot.low, slot.high, plate::relief_mm(sheet_mm_), rules().inner_radius_mm));
  }

  // Held against the top before its wall comes, by the way that this comes.
  void set_up(InstanceId id, Side side, Vec3 way) {
    auto& all = build_.draft.set_up;
    const auto wall = std::find_if(all.begin(), all.end(), [&](const SetUp& one) { return one.part == wall_[side]; });
    all.insert(wall, {id, way});
  }

  Build& build_;
  const GussetsSpec& spec_;
  double sheet_mm_;
  double thickness_;
  bool steel_;
  InstanceId top_ = 0;
  std::array<InstanceId, 2> wall_{};  // left, right
  std::vector<Box3> obstacles_;       // with what they need free along Y, and their ways out
};

}  // namespace

void add_corner_gussets(Build& build) {
  const BoxSpec& box = build.box_spec();
  if (is_of_plates(box) && box.frame.gussets) CornerGussets(build).run();
}

}  // namespace fitup::plan

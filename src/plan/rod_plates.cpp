// Rod plates at the front and the back, and what fixes them.
// Entry: add_rod_plates.
#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "diag/catalogue.h"
#include "fitup/tolerances.h"
#include "plan/hardware.h"
#include "plan/holes.h"
#include "plan/nut_strip.h"
#include "plan/opening.h"
#include "plan/outer_nut.h"
#include "plan/patterns.h"
#include "plan/rod_plate_place.h"
#include "plan/rod_windows.h"
#include "plan/rule_steps.h"
#include "plan/screw_fixing.h"
#include "plan/screw_row.h"
#include "plan/uneven_rods.h"
#include "plan/upright_side.h"

namespace fitup::plan {

namespace {

constexpr double largest_edge_gap_mm = 1;   // between the plate's ends and the uprights, so that it goes in
constexpr double above_rails_mm = 5;        // and below the items' tops
constexpr double lap_mm = 8;                // of a return flange beyond its screws, and of these before the plate
constexpr double edge_distance = 1.2;       // of a hole's centre from an edge, in hole diameters (common practice)
constexpr double before_flange_end_mm = 5;  // its screws before the end of a cover's flange over them
constexpr double behind_flange_mm = 2;      // a side plate begins this far behind a cover's flange
constexpr double screws_before_mm = 12;     // its screws before the plate, where no cover's flange says otherwise
constexpr double row_end_mm = 20;           // a return flange's first screw from its end
constexpr double largest_step_mm = 90;      // between its screws

class RodPlate {
 public:
  RodPlate(Build& build, const PlacedHardware& hardware, Side depth)
      : build_(build),
        hardware_(hardware),
        depth_(depth),
        outward_(depth == low ? axis::minus_y : axis::y),
        spec_(*build.box_spec().rod_plates),
        served_(rods_served(build, depth)) {}

  void run() {
    if (served_.empty() || fixing() == Fixing::none || !reachable() || !find_stack()) return;
    if (fixing() == Fixing::welded ? !meets_uprights() : !place_screws()) return;
    if (!size_plate() || (fixing() == Fixing::bolted && !passes(build_, face(), box_, rods_beyond_mm()))) return;
    if (!add_plate_with_holes()) return;
    if (fixing() == Fixing::bolted) {
      for (const Side side : {low, high}) add_return_flange(side);
    } else {
      weld();
    }
    pass_side_members();
    for (const std::size_t i : served_) {
      const RodSpec& rods = *build_.box.items[build_.box.rods[i].item].item->rods;
      add_outer_nut(build_, {hardware_.rods[i], plate_, *rods.thread, outer_, outward_, word(), &rods});
    }
  }

 private:
  [[nodiscard]] double sign() const { return outward_.y; }
  [[nodiscard]] const char* word() const { return depth_ == low ? "front" : "back"; }
  [[nodiscard]] double t() const { return spec_.thickness->mm(); }
  [[nodiscard]] Fixing fixing() const { return depth_ == low ? *spec_.front : *spec_.back; }
  [[nodiscard]] Origin origin(const std::string& group) const {
    return {build_.key("rod_plates"), spec_.thickness.place, group};
  }

  // The outer nuts go on last.
  bool reachable() {
    if (*face_spec().closed_by != Closure::plate) return true;
    build_.diagnostics.add(diag::say<"nuts-shut-in">(face_spec().closed_by.place, word(), word(), word()));
    return false;
  }

  // Where the inner nut of that rod ends.
  [[nodiscard]] double seat_of(std::size_t i) const { return rod_seat_mm(build_, i, depth_); }
  [[nodiscard]] double nut_mm(std::size_t i) const { return tables::find_nut(build_.box.rods[i].thread)->height_mm; }
  // How far the rods reach beyond the plate's inner face: along them it comes straight.
  [[nodiscard]] double rods_beyond_mm() const {
    double most = 0;
    for (const std::size_t i : served_) {
      const double projection = build_.box.items[build_.box.rods[i].item].item->rods->projection->mm();
      most = std::max(most, projection - nut_mm(i) - off_mm(i));
    }
    return most;
  }
  // How far it stands off the plate, which lies on those of the deepest items.
  [[nodiscard]] double off_mm(std::size_t i) const {
    const double off = std::abs(inner_ - seat_of(i));
    return off > tolerance::contact_mm ? off : 0;
  }

  // The plate lies on the nuts that stand out most; on rods of other items it has a second nut, for which there must be
  // room, and all rods must be long enough for what stands on them.
  bool find_stack() {
    inner_ = *rod_plate_inner_mm(build_, depth_);
    for (const std::size_t i : served_) {
      const PlacedItem& placed = build_.box.items[build_.box.rods[i].item];
      if (off_mm(i) > 0 && off_mm(i) < nut_mm(i) - tolerance::contact_mm) return say_uneven(*placed.item, i);
      if (!carries_stack(build_, *placed.item, t(), off_mm(i))) return false;
      const Box3 box = item_box(build_, build_.box.rods[i].item);
      span_.add(box.low);
      span_.add(box.high);
    }
    outer_ = inner_ + sign() * t();
    return true;
  }

  bool say_uneven(const ItemSpec& item, std::size_t i) {
    const auto on = std::find_if(served_.begin(), served_.end(), [&](std::size_t j) { return off_mm(j) <= 0; });
    build_.diagnostics.add(diag::say<"uneven-rods">(item.rods->thread.place, fmt::format("inner nuts' {}", word()),
                                                    item.name, build_.in_words(off_mm(i)),
                                                    remedy_of_uneven(build_, i, *on, depth_)));
    return false;
  }

  // Between the uprights, from above the rails to below the items' tops.
  bool size_plate() {
    const Shell& shell = build_.shell;
    const auto& uprights = shell.upright[depth_];
    box_ = {{uprights[low].box.high.x + edge_gap_mm(), std::min(inner_, outer_), shell.floor_mm + above_rails_mm},
            {uprights[high].box.low.x - edge_gap_mm(), std::max(inner_, outer_), span_.high.z - above_rails_mm}};
    const Vec3 size = box_.size();
    if (size.x > tolerance::contact_mm && size.z > tolerance::contact_mm) return true;
    build_.diagnostics.add(diag::say<"nothing-left">(
        spec_.thickness.place, fmt::format("the {} rod plate, from above the rails to below the items' tops,", word()),
        build_.in_words(size.x), build_.in_words(size.y), build_.in_words(size.z), build_.key("rod_plates")));
    return false;
  }

  bool add_plate_with_holes() {
    const bool front = depth_ == low;
    plate_ = add_plate(
        build_, {front ? "PLT10" : "PLT15", fmt::format("{} rod plate", word()), Role::rod_plate, material_of(build_)},
        box_, axis::y, fmt::format("rod plate {}", word()), origin(group()));
    build_.rod_plates[depth_ == low ? 0 : 1] = plate_;
    RodSheet sheet{plate_, box_, word(), t()};
    for (const std::size_t i : served_) {
      sheet.rods.push_back({hardware_.rods[i], rod_hole_mm(build_, build_.box.rods[i].thread)});
    }
    const auto windows = with_windows(build_, sheet);
    if (!windows) return false;
    profile_of_plate().outer = windows->outer;
    for (const std::size_t i : served_) add_rod_hole(i);
    Profile& profile = profile_of_plate();
    profile.holes.insert(profile.holes.end(), windows->holes.begin(), windows->holes.end());
    const auto flaw = flaw_in(profile);
    if (flaw) build_.diagnostics.add(diag::say<"plate-impossible">(spec_.thickness.place, word(), *flaw));
    return !flaw;
  }

  // Until the next part is added: a second nut is.
  [[nodiscard]] Profile& profile_of_plate() { return std::get<Flat>(build_.draft.part(plate_).form).profile; }

  // What is welded belongs to the frame.
  [[nodiscard]] std::string group() const {
    return fixing() == Fixing::welded ? "frame" : fmt::format("{} rod plate", word());
  }

  void add_rod_hole(std::size_t i) {
    const Thread& thread = *tables::find_thread(build_.box.rods[i].thread);
    const double diameter = rod_hole_mm(build_, thread.size);
    const Vec3 at = build_.draft.pose(hardware_.rods[i]).origin();
    const auto problem =
        make_hole(build_, plate_, {{at.x, inner_, at.z}, axis::y, diameter, HoleKind::clear, "rod " + thread.size});
    if (problem) {
      say_no_room(build_, spec_.thickness.place, diameter, build_.draft.instance(hardware_.rods[i]).name, plate_,
                  *problem);
    }
    const std::size_t item = build_.box.rods[i].item;
    note_rod(build_, {item, hardware_.items[item], hardware_.rods[i], plate_, {at.x, inner_, at.z}, axis::y, diameter});
    build_.draft.join(hardware_.rods[i], plate_, JointKind::slip, axis::x);
    InstanceId nut = hardware_.inner_nuts[depth_][i];
    if (off_mm(i) > 0) {
      const RodSpec& rods = *build_.box.items[item].item->rods;
      nut = add_second_nut(build_, {hardware_.items[item], hardware_.rods[i], nut, inner_, outward_, word(), &rods});
    }
    build_.draft.join(nut, plate_, JointKind::bearing, outward_);
  }

  void weld() {
    for (const Side side : {low, high}) {
      build_.draft.join(plate_, build_.shell.upright[depth_][side].id, JointKind::weld,
                        side == low ? axis::minus_x : axis::x, edge_gap_mm());
    }
  }

  // Legs that stand up at the sides, and are thicker than the uprights by the gap, it just touches.
  void pass_side_members() {
    for (const Side side : {low, high}) {
      const Face beside = side == low ? Face::left : Face::right;
      for (const Host& host : build_.shell.beside[static_cast<std::size_t>(beside)]) {
        const double off = side == low ? box_.low.x - host.box.high.x : host.box.low.x - box_.high.x;
        if (std::abs(off) > tolerance::contact_mm) continue;
        build_.draft.join(plate_, host.id, JointKind::slip, side == low ? axis::minus_x : axis::x);
      }
    }
  }

  // Wide enough to go in, and narrow enough that a thin plate still meets what it is welded to.
  [[nodiscard]] double edge_gap_mm() const {
    const double gap = std::min(largest_edge_gap_mm, t() / 2);
    return fixing() == Fixing::bolted ? std::max(gap, play_mm()) : gap;
  }
  // Between a return flange and its upright.
  [[nodiscard]] double play_mm() const { return spec_.gap->mm(); }

  // From the face of the frame to the plate's outer surface.
  [[nodiscard]] double plate_depth_mm() const { return depth_ == low ? outer_ : build_.shell.size.y - outer_; }
  [[nodiscard]] UprightSide upright() const { return {build_.shell.upright[depth_][low]}; }
  [[nodiscard]] Face face() const { return depth_ == low ? Face::front : Face::back; }
  [[nodiscard]] const FaceSpec& face_spec() const { return build_.box_spec().face(face()); }
  [[nodiscard]] const Sourced<Length>& clearance() const {
    const ClearanceSpec& c = build_.box_spec().clearance;
    return depth_ == low ? c.front : c.back;
  }

  /// "4.2 mm before", "15.8 mm behind"
  [[nodiscard]] std::string from_face(double depth_mm) const {
    return build_.in_words(std::abs(depth_mm)) + (depth_mm < 0 ? " before" : " behind");
  }

  // The whole thickness must face the uprights' sides.
  bool meets_uprights() {
    const double outer = plate_depth_mm();
    const double end = upright().ends_mm();
    const bool too_deep = outer + t() > end + tolerance::contact_mm;
    if (!too_deep && outer > upright().begins_mm() - tolerance::contact_mm) return true;
    const double wall = build_.shell.end_wall_mm;
    const double nut = tables::find_nut(build_.box.rods[served_.front()].thread)->height_mm;
    const double free = outer + t() + nut - wall;
    build_.diagnostics.add(diag::say<"rod-plate-misses">(
        clearance().place, word(), from_face(outer), from_face(outer + t()), from_face(end), build_.in_words(wall),
        build_.in_words(free), build_.in_words(nut), build_.in_words(outer + t()),
        remedy_of_miss(build_, upright(), word(), outer, nut)));
    return false;
  }

  // Behind the face of the frame: where a return flange's screws may stand.
  struct Range {
    double least = 0;
    double most = 0;
    std::string why_least;
  };

  [[nodiscard]] const Thread& screw() const { return *tables::find_thread(*spec_.screw); }
  [[nodiscard]] double edge_mm() const { return edge_distance * screw().clear_medium_mm + slot_mm() / 2; }
  [[nodiscard]] double before_plate_mm() const { return std::max(lap_mm, edge_mm()); }
  [[nodiscard]] bool flanged() const { return is_flanged(build_.box_spec(), face()); }
  // How far a screw's tip comes through the upright.
  [[nodiscard]] double tip_mm() const { return screw_reach_mm(spec_, upright().host); }
  [[nodiscard]] double slot_mm() const { return slot_mm_of(build_, spec_.screw_hole, spec_.screw_slot, axis::y); }

  // A return flange ends inside the frame, and behind the cover's screws, whose tips and nuts come through the upright.
  [[nodiscard]] double least_end_mm() const {
    if (!flanged()) return 0;
    return flange_row_mm(build_, face()) +
           reach_behind_mm(build_, face_spec().screws, upright().host.depth_mm(axis::x)) + tip_air_mm;
  }

  [[nodiscard]] double upright_limit_mm() const {
    return upright().screws_end_mm(spec_, edge_distance * screw().tap_drill_mm);
  }
  [[nodiscard]] double flange_limit_mm() const {
    return face_spec().flange_depth->mm() - screw().major_mm / 2 - tip_air_mm;
  }

  [[nodiscard]] Range range(bool under_flange) const {
    Range r{std::max(least_end_mm() + edge_mm(), upright().screws_begin_mm(spec_)),
            std::min(upright_limit_mm(), plate_depth_mm() - before_plate_mm()),
            flanged() ? "clear of the cover's screws" : "so that the flange ends inside the frame"};
    if (under_flange) {
      r.most = std::min(r.most, flange_limit_mm());
    } else if (flanged()) {
      r.least = std::max(r.least, face_spec().flange_depth->mm() + behind_flange_mm + edge_mm());
      r.why_least = "behind the cover's flange";
    }
    return r;
  }

  // Under a cover's flange the tips stay in its gap; else they are behind it, or where there is none.
  bool place_screws() {
    const Range under = flanged() ? range(true) : Range{1, 0, {}};
    const bool reaches = under.least <= under.most + tolerance::contact_mm;
    const double air = tip_mm() > tolerance::contact_mm ? tip_air_mm : 0;
    under_flange_ = reaches && face_spec().gap->mm() >= tip_mm() + air - tolerance::contact_mm;
    const Range r = under_flange_ ? under : range(false);
    const double wanted =
        under_flange_ ? face_spec().flange_depth->mm() - before_flange_end_mm : plate_depth_mm() - screws_before_mm;
    screw_depth_ = std::min(r.most, std::max(r.least, wanted));
    if (r.least <= r.most + tolerance::contact_mm) return true;
    if (reaches) {
      say_gap_too_small(build_, spec_, upright().host, face());
    } else {
      // Where only the plate stands too near, its clearance is what to change.
      const bool only_plate = flanged() && under.least <= flange_limit_mm() && under.least <= upright_limit_mm();
      say_no_flange_room(only_plate ? under : r);
    }
    return false;
  }

  void say_no_flange_room(const Range& r) {
    const double more = clearance()->mm() + r.least - r.most;
    const bool clearance_helps = r.most < upright_limit_mm() && r.least <= upright_limit_mm();
    const double wide = upright().width_mm() + r.least - upright_limit_mm();
    build_.diagnostics.add(diag::say<"no-room-for-flange">(
        clearance_helps ? clearance().place : spec_.screw.place, word(), screw().size, build_.in_words(r.least),
        r.why_least, build_.in_words(before_plate_mm()), from_face(plate_depth_mm()),
        build_.in_words(upright().width_mm()),
        clearance_helps
            ? fmt::format("give a {} clearance of at least {}", word(), build_.at_least(more))
            : fmt::format("choose uprights at least {} wide ({}), or a smaller screw ({})", build_.at_least(wide),
                          build_.key("frame.uprights"), build_.key("rod_plates.screw"))));
  }

  void add_return_flange(Side side) {
    const Host& upright = build_.shell.upright[depth_][side];
    const double screws_y = depth_ == low ? screw_depth_ : build_.shell.size.y - screw_depth_;
    const double end = std::max({least_end_mm(), upright.root_mm, screw_depth_ - std::max(lap_mm, edge_mm())});
    const double tip = depth_ == low ? end : build_.shell.size.y - end;
    const double x = side == low ? upright.box.high.x + play_mm() : upright.box.low.x - play_mm() - t();
    // On the upright only: legs of the rings stand in the same plane below and above it.
    const double low_z = std::max(box_.low.z, upright.box.low.z + edge_gap_mm());
    const double high_z = std::min(box_.high.z, upright.box.high.z - edge_gap_mm());
    const Box3 box{{x, std::min(tip, outer_), low_z}, {x + t(), std::max(tip, outer_), high_z}};
    const std::string name = fmt::format("return flange {} {}", word(), side == low ? "left" : "right");
    const InstanceId id = add_plate(build_,
                                    {depth_ == low ? "PLT11" : "PLT16", "return flange of the rod plate",
                                     Role::rod_plate_flange, material_of(build_)},
                                    box, axis::x, name, origin(group()));
    build_.draft.join(id, plate_, JointKind::weld, Vec3{} - outward_);
    clear_screw_tips(build_, upright.id, id);
    screw_flange(id, side, box, screws_y);
  }

  void screw_flange(InstanceId flange, Side side, const Box3& box, double y) {
    const Host& upright = build_.shell.upright[depth_][side];
    const Vec3 into = side == low ? axis::minus_x : axis::x;
    const double seat_x = side == low ? box.high.x : box.low.x;
    // Under a cover's flange there is a gap, not the plate.
    const auto behind = under_flange_ ? std::nullopt : build_.side_plates[side];
    const std::vector<Layer> layers{{flange, 0, t()},
                                    {upright.id, t() + play_mm(), t() + play_mm() + upright.depth_mm(axis::x)}};
    int number = 0;
    const double end = steps_of(screw()).place_up(row_end_mm);
    const auto by_rule = spread(box.low.z + end, box.high.z - end, largest_step_mm);
    for (const double z : heights_of(build_, spec_, box.low.z + edge_mm(), box.high.z - edge_mm(), by_rule)) {
      const std::string name = fmt::format("{} screw {}", build_.draft.instance(flange).name, ++number);
      ScrewPlace place{*spec_.screw, spec_.screw.place, {seat_x, y, z}, into, layers, name, origin(group()), behind};
      hold_as_said(build_, spec_, place);
      add_screw(build_, place);
    }
  }

  Build& build_;
  const PlacedHardware& hardware_;
  Side depth_;
  Vec3 outward_;
  const RodPlatesSpec& spec_;
  std::vector<std::size_t> served_;  // rods of the line that stands nearest
  double inner_ = 0;                 // Y of the surface that lies on the inner nuts of the deepest items
  double outer_ = 0;                 // Y of the surface the washers lie on
  Box3 span_;                        // of the items with rods
  Box3 box_;                         // of the plate
  double screw_depth_ = 0;           // of the return flanges' screws, from the face of the frame
  bool under_flange_ = false;        // of the cover: their tips stay in its gap
  InstanceId plate_ = 0;
};

}  // namespace

void add_rod_plates(Build& build, const PlacedHardware& hardware) {
  if (!build.box_spec().rod_plates || hardware.inner_nuts[low].size() != build.box.rods.size()) return;
  const RodPlatesSpec& spec = *build.box_spec().rod_plates;
  if (*spec.front == Fixing::none && *spec.back == Fixing::none) return;
  for (const PlacedRod& rod : build.box.rods) {
    if (!rod.along_x()) continue;
    const PlacedItem& item = build.box.items[rod.item];
    return build.diagnostics.add(diag::say<"rods-across">(item.place, item.name, 90 * item.quarters));
  }
  for (const Side depth : {low, high}) RodPlate(build, hardware, depth).run();
}

}  // namespace fitup::plan

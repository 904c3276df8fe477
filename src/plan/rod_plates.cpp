// Rod plates at the front and the back, what fixes them, and the washers and outer nuts on them.
// Entry: add_rod_plates.
#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "diag/catalogue.h"
#include "fitup/tolerances.h"
#include "plan/hardware.h"
#include "plan/holes.h"

namespace fitup::plan {

namespace {

constexpr double edge_gap_mm = 1;     // between the plate's ends and the uprights, so that it goes in
constexpr double above_rails_mm = 5;  // and below the items' tops
constexpr double window_margin_mm = 3;
constexpr double window_radius_mm = 5;
constexpr double flange_lap_mm = 8;      // of a return flange beyond its screws
constexpr double screws_before_mm = 12;  // its screws before the plate, where no cover's flange says otherwise
constexpr double row_end_mm = 20;        // a return flange's first screw from its end
constexpr double largest_step_mm = 90;   // between its screws
constexpr double two_threads = 2;        // a rod shows two threads beyond its nut

class RodPlate {
 public:
  RodPlate(Build& build, const PlacedHardware& hardware, Side depth)
      : build_(build),
        hardware_(hardware),
        depth_(depth),
        outward_(depth == low ? axis::minus_y : axis::y),
        spec_(*build.box_spec().rod_plates) {}

  void run() {
    const Fixing fixing = depth_ == low ? *spec_.front : *spec_.back;
    if (build_.box.rods.empty() || fixing == Fixing::none || !find_stack()) return;
    add_plate_with_holes();
    if (fixing == Fixing::bolted) {
      for (const Side side : {low, high}) add_return_flange(side);
    } else {
      weld();
    }
    for (std::size_t i = 0; i < build_.box.rods.size(); ++i) add_outer_nut(i);
  }

 private:
  [[nodiscard]] double sign() const { return outward_.y; }
  [[nodiscard]] const char* word() const { return depth_ == low ? "front" : "back"; }
  [[nodiscard]] double t() const { return spec_.thickness->mm(); }
  [[nodiscard]] Origin origin(const std::string& group) const {
    return {build_.key("rod_plates"), spec_.thickness.place, group};
  }

  // End faces and nuts must be in one plane, and the rods long enough for what stands on them.
  bool find_stack() {
    for (std::size_t i = 0; i < build_.box.rods.size(); ++i) {
      const PlacedRod& rod = build_.box.rods[i];
      const ItemSpec& item = *build_.box.items[rod.item].item;
      const Box3 box = item_box(build_, rod.item);
      const double nut = tables::find_nut(rod.thread)->height_mm;
      const double seat = (depth_ == low ? box.low.y : box.high.y) + sign() * nut;
      if (i == 0) inner_ = seat;
      if (std::abs(seat - inner_) > tolerance::contact_mm) {
        build_.diagnostics.add(
            diag::say<"uneven-rods">(item.size.place, word(), item.name, build_.in_words(std::abs(seat - inner_))));
        return false;
      }
      const Thread& thread = *tables::find_thread(rod.thread);
      const double needed =
          2 * nut + t() + tables::find_washer(rod.thread)->thickness_mm + two_threads * thread.pitch_mm;
      if (item.rods->projection->mm() < needed - tolerance::contact_mm) {
        build_.diagnostics.add(diag::say<"rod-too-short">(
            item.rods->projection.place, rod.thread, build_.in_words(item.rods->projection->mm()),
            "inner nut, rod plate, washer, outer nut and two threads", build_.in_words(needed)));
        return false;
      }
      span_.add(box.low);
      span_.add(box.high);
    }
    outer_ = inner_ + sign() * t();
    return true;
  }

  void add_plate_with_holes() {
    const Shell& shell = build_.shell;
    const auto& uprights = shell.upright[depth_];
    box_ = {{uprights[low].box.high.x + edge_gap_mm, std::min(inner_, outer_), shell.floor_mm + above_rails_mm},
            {uprights[high].box.low.x - edge_gap_mm, std::max(inner_, outer_), span_.high.z - above_rails_mm}};
    const bool front = depth_ == low;
    plate_ = add_plate(
        build_, {front ? "PLT10" : "PLT15", fmt::format("{} rod plate", word()), Role::rod_plate, material_of(build_)},
        box_, axis::y, fmt::format("rod plate {}", word()), origin(group()));
    for (std::size_t i = 0; i < build_.box.rods.size(); ++i) add_rod_hole(i);
    for (const Zone& zone : build_.draft.zones) add_window(zone);
    const auto flaw = flaw_in(std::get<Flat>(build_.draft.part(plate_).form).profile);
    if (flaw) build_.diagnostics.add(diag::say<"plate-impossible">(spec_.thickness.place, word(), *flaw));
  }

  // What is welded belongs to the frame.
  [[nodiscard]] std::string group() const {
    const Fixing fixing = depth_ == low ? *spec_.front : *spec_.back;
    return fixing == Fixing::welded ? "frame" : fmt::format("{} rod plate", word());
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
    build_.draft.join(hardware_.rods[i], plate_, JointKind::slip, axis::x);
    build_.draft.join(hardware_.inner_nuts[depth_][i], plate_, JointKind::bearing, outward_);
  }

  // A zone that is kept clear through the plate gets a window.
  void add_window(const Zone& zone) {
    if (zone.box.high.y <= box_.low.y || zone.box.low.y >= box_.high.y) return;
    Flat& flat = std::get<Flat>(build_.draft.part(plate_).form);
    const Vec3 a = build_.draft.pose(plate_).local(zone.box.low);
    const Vec3 b = build_.draft.pose(plate_).local(zone.box.high);
    const Vec2 grow{window_margin_mm, window_margin_mm};
    flat.profile.holes.push_back(
        Loop::rounded_rectangle(Vec2{a.x, a.y} - grow, Vec2{b.x, b.y} + grow, window_radius_mm));
  }

  void weld() {
    for (const Side side : {low, high}) {
      build_.draft.join(plate_, build_.shell.upright[depth_][side].id, JointKind::weld,
                        side == low ? axis::minus_x : axis::x, edge_gap_mm);
    }
  }

  // From the face of the frame to the plate's outer surface.
  [[nodiscard]] double plate_depth_mm() const { return depth_ == low ? outer_ : build_.shell.size.y - outer_; }

  // Depth of the screws from the face of the frame: under a cover's flange their tips stay in its gap.
  [[nodiscard]] double screw_depth_mm() const {
    const Face face = depth_ == low ? Face::front : Face::back;
    if (!is_flanged(build_.box_spec(), face)) return plate_depth_mm() - screws_before_mm;
    return build_.box_spec().face(face).flange_depth->mm() - 5;
  }

  void add_return_flange(Side side) {
    const Host& upright = build_.shell.upright[depth_][side];
    const double depth = screw_depth_mm();
    const double lap = plate_depth_mm() - depth;
    if (lap < flange_lap_mm) {
      build_.diagnostics.add(diag::say<"no-room-for-flange">(spec_.front.place, word(), build_.in_words(lap),
                                                             build_.in_words(flange_lap_mm)));
      return;
    }
    const double screws_y = depth_ == low ? depth : build_.shell.size.y - depth;
    const double tip = screws_y + sign() * flange_lap_mm;
    const double x = side == low ? upright.box.high.x : upright.box.low.x - t();
    // On the upright only: legs of the rings stand in the same plane below and above it.
    const double low_z = std::max(box_.low.z, upright.box.low.z + edge_gap_mm);
    const double high_z = std::min(box_.high.z, upright.box.high.z - edge_gap_mm);
    const Box3 box{{x, std::min(tip, outer_), low_z}, {x + t(), std::max(tip, outer_), high_z}};
    const std::string name = fmt::format("return flange {} {}", word(), side == low ? "left" : "right");
    const InstanceId id = add_plate(build_,
                                    {depth_ == low ? "PLT11" : "PLT16", "return flange of the rod plate",
                                     Role::rod_plate_flange, material_of(build_)},
                                    box, axis::x, name, origin(group()));
    build_.draft.join(id, plate_, JointKind::weld, Vec3{} - outward_);
    screw_flange(id, side, box, screws_y);
  }

  void screw_flange(InstanceId flange, Side side, const Box3& box, double y) {
    const Host& upright = build_.shell.upright[depth_][side];
    const Vec3 into = side == low ? axis::minus_x : axis::x;
    const double seat_x = side == low ? box.high.x : box.low.x;
    // Under a cover's flange there is a gap, not the plate.
    const bool flanged = is_flanged(build_.box_spec(), depth_ == low ? Face::front : Face::back);
    const auto behind = flanged ? std::nullopt : build_.side_plates[side];
    const std::vector<Layer> layers{{flange, 0, t()}, {upright.id, t(), t() + upright.box.size().x}};
    int number = 0;
    for (const double z : spread(box.low.z + row_end_mm, box.high.z - row_end_mm, largest_step_mm)) {
      const std::string name = fmt::format("{} screw {}", build_.draft.instance(flange).name, ++number);
      add_screw(build_, {*spec_.screw, spec_.screw.place, {seat_x, y, z}, into, layers, name, origin(group()), behind});
    }
  }

  void add_outer_nut(std::size_t i) {
    const std::string& size = build_.box.rods[i].thread;
    const Thread& thread = *tables::find_thread(size);
    const Washer& washer = *tables::find_washer(size);
    const InstanceId rod = hardware_.rods[i];
    const Vec3 at = build_.draft.pose(rod).origin();
    const std::string name = build_.draft.instance(rod).name;
    Draft& draft = build_.draft;
    const InstanceId w = draft.add(plain_washer(washer), along({at.x, outer_, at.z}, outward_),
                                   fmt::format("{} washer {}", name, word()), origin(nut_group()));
    const double seat = outer_ + sign() * washer.thickness_mm;
    const InstanceId n = draft.add(hex_nut(thread, *tables::find_nut(size)), along({at.x, seat, at.z}, outward_),
                                   fmt::format("{} outer nut {}", name, word()), origin(nut_group()));
    draft.join(w, plate_, JointKind::bearing, Vec3{} - outward_);
    draft.join(w, rod, JointKind::slip, axis::x);
    draft.join(n, w, JointKind::bearing, Vec3{} - outward_);
    draft.join(n, rod, JointKind::thread, axis::y, 0, thread.major_mm);
  }

  [[nodiscard]] static const char* nut_group() { return "rod nuts"; }

  Build& build_;
  const PlacedHardware& hardware_;
  Side depth_;
  Vec3 outward_;
  const RodPlatesSpec& spec_;
  double inner_ = 0;  // Y of the surface the inner nuts bear on
  double outer_ = 0;  // Y of the surface the washers lie on
  Box3 span_;         // of the items with rods
  Box3 box_;          // of the plate
  InstanceId plate_ = 0;
};

}  // namespace

void add_rod_plates(Build& build, const PlacedHardware& hardware) {
  if (!build.box_spec().rod_plates || hardware.inner_nuts[low].size() != build.box.rods.size()) return;
  for (const Side depth : {low, high}) RodPlate(build, hardware, depth).run();
}

}  // namespace fitup::plan

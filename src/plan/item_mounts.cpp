// Screws through an item's own holes into rails, into strips on the plate behind it, or into strips between uprights.
// Entry: add_item_mounts.
#include "plan/item_mounts.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "diag/catalogue.h"
#include "fitup/tolerances.h"
#include "plan/face_axes.h"
#include "plan/hardware.h"
#include "plan/holes.h"
#include "plan/item_holes.h"
#include "plan/mount_reach.h"
#include "plan/nut_strip.h"
#include "plan/plate/walls.h"
#include "plan/rule_steps.h"

namespace fitup::plan {

namespace {

constexpr double widths_per_thread = 5;  // of a strip (common practice)
constexpr double thinnest_strip_mm = 5;  // from upright to upright (common practice)

// One hole, where the item stands.
struct Hole {
  std::size_t item = 0;
  std::size_t number = 0;  // of the item's, from 1
  Vec3 at;                 // on the item's face
  const ItemMountsSpec* spec = nullptr;
};

// Holes of one face at one height and depth: one strip.
struct Row {
  std::vector<Hole> holes;
  std::optional<Host> strip;
};

// All that is held at one face of the box.
class HeldFace {
 public:
  HeldFace(Build& build, const PlacedHardware& hardware, Face face)
      : build_(build), hardware_(hardware), face_(face), n_(axis_of(face)), u_(n_ == 0 ? 1 : 0), v_(n_ == 2 ? 1 : 2) {}

  void add(const Hole& hole) {
    const auto same = [&](const Row& row) {
      const Hole& other = row.holes.front();
      return near(along(other.at, v_), along(hole.at, v_)) && near(along(other.at, n_), along(hole.at, n_)) &&
             width_mm(*other.spec) == width_mm(*hole.spec) && on_plate(other) == on_plate(hole);
    };
    const auto row = std::find_if(rows_.begin(), rows_.end(), same);
    if (row == rows_.end()) {
      rows_.push_back({{hole}, std::nullopt});
    } else {
      row->holes.push_back(hole);
    }
  }

  void run(const std::vector<Host>& rails) {
    for (Row& row : rows_) {
      if (face_ == Face::bottom) {
        for (const Hole& hole : row.holes) screw_into_rail(hole, rails);
        continue;
      }
      if (on_plate(row.holes.front()) ? !reach_plate(row) : !reach_uprights(row)) return;
      for (const Hole& hole : row.holes) screw(hole, row);
    }
  }

 private:
  static bool near(double a, double b) { return std::abs(a - b) <= tolerance::contact_mm; }
  [[nodiscard]] Vec3 outward() const { return unit(n_, side_of(face_)); }
  [[nodiscard]] double sign() const { return side_of(face_) == low ? -1 : 1; }
  [[nodiscard]] std::string word() const { return std::string(to_text(face_)); }
  [[nodiscard]] static std::string key(const Build& build, const Hole& hole) {
    return "item." + build.box.items[hole.item].item->name + ".mounts";
  }
  [[nodiscard]] static double width_mm(const ItemMountsSpec& spec) {
    if (spec.strip_width) return (*spec.strip_width)->mm();
    const Thread& thread = *tables::find_thread(*spec.thread);
    return rounded_up(widths_per_thread * thread.major_mm, steps_of(thread).size_mm);
  }
  [[nodiscard]] const FaceSpec& face_spec() const { return build_.box_spec().face(face_); }
  [[nodiscard]] std::optional<InstanceId> plate() const {
    if (*face_spec().closed_by != Closure::plate) return std::nullopt;
    return build_.panels[static_cast<std::size_t>(face_)];
  }
  // What the item would have to be moved by to lie on the plate: to the plate's inner side, which is the frame's face.
  [[nodiscard]] double gap_mm(const Hole& hole) const {
    const double wall = within_mm(build_);
    const double inner = side_of(face_) == low ? wall : along(build_.shell.size, n_) - wall;
    return sign() * (inner - along(hole.at, n_));
  }
  [[nodiscard]] bool on_plate(const Hole& hole) const {
    if (hole.spec->on) return **hole.spec->on == HeldBy::plate;
    return plate().has_value() && (n_ != 1 || gap_mm(hole) <= thickest_filler_mm + tolerance::contact_mm);
  }

  void say(const Hole& hole, const std::string& why, const std::string& remedy) {
    // The items of a row stand alike: one message for all of them.
    const Place& place = hole.spec->on ? hole.spec->on->place : hole.spec->place;
    if (is_said(build_, "item-not-reached", place, key(build_, hole))) return;
    build_.diagnostics.add(
        diag::say<"item-not-reached">(place, key(build_, hole), build_.box.items[hole.item].name, why, remedy));
  }
  [[nodiscard]] std::string clearance_key() const { return build_.key("clearance." + word()); }

  // ---- what the screws go into

  [[nodiscard]] Box3 strip_box(const Row& row, double thick_mm) const {
    const double half = width_mm(*row.holes.front().spec) / 2;
    Box3 box;
    for (const Hole& hole : row.holes) {
      for (const double to : {-half, half}) {
        Vec3 p = hole.at;
        along(p, u_) += to;
        along(p, v_) += to;
        box.add(p);
        along(p, n_) += sign() * thick_mm;
        box.add(p);
      }
    }
    return box;
  }

  Host add_strip(const Hole& first, const Box3& box) {
    const Origin origin{key(build_, first), first.spec->place, "frame"};
    const InstanceId id = add_plate(build_, {"STR01", "mount strip", Role::mount_strip, material_of(build_)}, box,
                                    unit(n_, high), fmt::format("{} mount strip {}", word(), ++strips_), origin);
    return {id, box};
  }

  void lie_on(const Row& row, InstanceId host) {
    std::vector<std::size_t> done;
    for (const Hole& hole : row.holes) {
      if (std::find(done.begin(), done.end(), hole.item) != done.end()) continue;
      done.push_back(hole.item);
      build_.draft.join(hardware_.items[hole.item], host, JointKind::bearing, outward());
    }
  }

  bool reach_plate(Row& row) {
    const Hole& first = row.holes.front();
    if (!plate()) {
      const bool cover = *face_spec().closed_by == Closure::cover;
      say(first, fmt::format("the {} face is {}", word(), cover ? "closed by a cover, which comes off" : "open"),
          fmt::format("close it by a plate{}", n_ == 1 ? ", or give on = \"uprights\"" : ""));
      return false;
    }
    const double gap = gap_mm(first);
    if (gap > thickest_filler_mm + tolerance::contact_mm) {
      say(first,
          fmt::format("it stands {} off the {} plate, and a strip that fills this may be {} thick",
                      build_.in_words(gap), word(), build_.in_words(thickest_filler_mm)),
          nearer_to_plate_words(build_, reach_of(first)));
      return false;
    }
    if (gap <= tolerance::contact_mm) {
      lie_on(row, *plate());
      return true;
    }
    row.strip = add_strip(first, strip_box(row, gap));
    build_.draft.join(row.strip->id, *plate(), JointKind::weld, outward());
    lie_on(row, row.strip->id);
    return true;
  }

  [[nodiscard]] MountReach reach_of(const Hole& hole) const {
    return {face_, hole.item, along(hole.at, n_), gap_mm(hole) - clearance_mm(hole)};
  }

  // From the item to the inside of the face, where the item itself is the nearest.
  [[nodiscard]] double clearance_mm(const Hole& hole) const {
    const double wall = n_ == 0 ? build_.shell.side_wall_mm : n_ == 1 ? build_.shell.end_wall_mm : 0;
    return gap_mm(hole) - wall;
  }

  [[nodiscard]] const Material& material() const { return *tables::find_material(material_of(build_)); }

  [[nodiscard]] double thick_mm(const ItemMountsSpec& spec) const {
    if (spec.strip_thickness) return (*spec.strip_thickness)->mm();
    const bool threaded = spec.ear && *spec.fixing == ScrewFixing::tapped;
    const Thread& thread = *tables::find_thread(*spec.thread);
    const double needed = rounded_up(least_engagement_mm(thread, material()), steps_of(thread).place_mm);
    return std::max(thinnest_strip_mm, threaded ? needed : 0);
  }

  bool reach_uprights(Row& row) {
    const Hole& first = row.holes.front();
    if (n_ != 1) {
      say(first, fmt::format("no uprights stand beside each other at the {} face", word()),
          "give on = \"plate\" and close the face by a plate, or turn the item");
      return false;
    }
    const auto& uprights = build_.shell.upright[side_of(face_)];
    Box3 box = strip_box(row, thick_mm(*first.spec));
    box.low.x = uprights[low].box.high.x;
    box.high.x = uprights[high].box.low.x;
    for (const Side side : {low, high}) {
      const Box3& upright = uprights[side].box;
      if (box.low.y >= upright.low.y - tolerance::contact_mm && box.high.y <= upright.high.y + tolerance::contact_mm)
        continue;
      say_beside_upright(first, box, upright);
      return false;
    }
    row.strip = add_strip(first, box);
    for (const Side side : {low, high}) {
      const Vec3 way = side == low ? axis::minus_x : axis::x;
      build_.draft.join(row.strip->id, uprights[side].id, JointKind::weld, way);
      weld_to_ring(*row.strip, side == low ? Face::left : Face::right, way);
    }
    lie_on(row, row.strip->id);
    return true;
  }

  // At the height of a ring its side member's leg ends the strip as well.
  void weld_to_ring(const Host& strip, Face side, Vec3 way) {
    for (const Host& host : build_.shell.beside[static_cast<std::size_t>(side)]) {
      const double off = side == Face::left ? strip.box.low.x - host.box.high.x : host.box.low.x - strip.box.high.x;
      const bool is_upright = host.id == build_.shell.upright[side_of(face_)][side_of(side)].id;
      const bool runs_back = host.box.size().y > build_.shell.size.y / 2;
      if (is_upright || !runs_back || std::abs(off) > tolerance::contact_mm ||
          !face_each_other(strip.box, host.box, way))
        continue;
      build_.draft.join(strip.id, host.id, JointKind::weld, way);
    }
  }

  void say_beside_upright(const Hole& hole, const Box3& strip, const Box3& upright) {
    const double thick = strip.size().y;
    const double wide = upright.size().y;
    say(hole,
        fmt::format("a strip {} thick behind it does not lie between the uprights, which reach {} in from the {}",
                    build_.in_words(thick), build_.in_words(wide), word()),
        between_uprights_words(build_, reach_of(hole), thick, wide));
  }

  // ---- screws

  void screw(const Hole& hole, const Row& row) {
    std::vector<Host> plies;  // from the item outwards
    if (row.strip) plies.push_back(*row.strip);
    if (on_plate(hole)) plies.push_back({*plate(), panel_box(build_, face_)});
    if (hole.spec->ear) {
      from_item(hole, plies, outward());
    } else {
      from_outside(hole, plies, outward());
    }
  }

  void screw_into_rail(const Hole& hole, const std::vector<Host>& rails) {
    for (const Host& rail : rails) {
      const bool under = near(rail.box.high.z, hole.at.z) && hole.at.x > rail.box.low.x &&
                         hole.at.x < rail.box.high.x && hole.at.y > rail.box.low.y && hole.at.y < rail.box.high.y;
      if (!under) continue;
      std::vector<Host> plies{rail};
      if (const auto leg = leg_under(hole, rail)) plies.push_back(*leg);
      if (hole.spec->ear) {
        from_item(hole, plies, axis::minus_z);
      } else {
        from_outside(hole, plies, axis::minus_z);
      }
      return;
    }
    say(hole,
        fmt::format("no rail lies under its hole {} at X = {}, Y = {}", hole.number, build_.in_words(hole.at.x),
                    build_.in_words(hole.at.y)),
        fmt::format("lay one there with {}, or give it foot strips there", build_.key("rails.at")));
  }

  // What the rail lies on there.
  [[nodiscard]] std::optional<Host> leg_under(const Hole& hole, const Host& rail) const {
    for (const Host& leg : build_.shell.deck) {
      const bool under = near(leg.box.high.z, rail.box.low.z) && hole.at.x > leg.box.low.x &&
                         hole.at.x < leg.box.high.x && hole.at.y > leg.box.low.y && hole.at.y < leg.box.high.y;
      if (under && leg.wall_mm <= 0) return leg;
    }
    return std::nullopt;
  }

  [[nodiscard]] ScrewPlace place(const Hole& hole, Vec3 seat, Vec3 direction) const {
    const PlacedItem& item = build_.box.items[hole.item];
    ScrewPlace out;
    out.thread = *hole.spec->thread;
    out.thread_place = hole.spec->thread.given ? hole.spec->thread.place : hole.spec->place;
    out.seat = seat;
    out.direction = direction;
    out.name = fmt::format("{} mount screw {}", item.name, hole.number);
    out.origin = {key(build_, hole), hole.spec->place, "items"};
    return out;
  }

  [[nodiscard]] double thickness_mm(const Host& ply, Vec3 direction) const {
    return std::abs(dot(ply.box.size(), direction));
  }

  // Through the ear: what is tapped is the first that holds a thread, or both as one, which are welded to each other;
  // else what stands behind is behind them all.
  void from_item(const Hole& hole, std::vector<Host> plies, Vec3 direction) {
    const double ear = (*hole.spec->ear)->mm();
    ScrewPlace at = place(hole, hole.at - ear * direction, direction);
    at.fixing = *hole.spec->fixing;
    at.by_rule = !hole.spec->fixing.given;
    at.fixing_key = key(build_, hole) + ".fixing";
    at.layers.push_back({hardware_.items[hole.item], 0, ear});
    const Thread& thread = *tables::find_thread(*hole.spec->thread);
    const auto holds = [&](double thick) { return holds_thread_itself(thread, material(), thick); };
    if (at.fixing == ScrewFixing::tapped && plies.size() > 1) {
      const double first = thickness_mm(plies.front(), direction);
      const double second = thickness_mm(plies.back(), direction);
      if (holds(first)) {
        at.behind = plies.back().id;
        plies.resize(1);
      } else if (!holds(second) && holds(first + second)) {
        at.threaded = 2;
      }
    }
    for (const Host& ply : plies) {
      const double from = at.layers.back().to_mm;
      at.layers.push_back({ply.id, from, from + thickness_mm(ply, direction)});
    }
    add_screw(build_, at);
  }

  // From outside into the item's tapped hole.
  void from_outside(const Hole& hole, const std::vector<Host>& plies, Vec3 direction) {
    double grip = 0;
    for (const Host& ply : plies) grip += thickness_mm(ply, direction);
    const Thread& thread = *tables::find_thread(*hole.spec->thread);
    const double length = screw_length_mm(thread, grip + thread.major_mm);
    const double deep = (*hole.spec->depth)->mm();
    if (length <= 0 || length > grip + deep + tolerance::contact_mm) {
      say(hole,
          fmt::format("a screw through {} that holds one diameter, {}, is {} long and goes {} deep, and the hole is {}",
                      build_.in_words(grip), build_.in_words(thread.major_mm), build_.in_words(length),
                      build_.in_words(length - grip), build_.in_words(deep)),
          fmt::format("change {} so that a length that is kept suits, or the plate's thickness", clearance_key()));
      return;
    }
    ScrewPlace at = place(hole, hole.at + grip * direction, Vec3{} - direction);
    double from = 0;
    for (auto ply = plies.rbegin(); ply != plies.rend(); ++ply) {
      const double to = from + thickness_mm(*ply, direction);
      at.layers.push_back({ply->id, from, to});
      from = to;
    }
    at.layers.push_back({hardware_.items[hole.item], grip, grip + thread.major_mm});
    add_screw(build_, at);
  }

  Build& build_;
  const PlacedHardware& hardware_;
  Face face_;
  int n_;
  int u_;
  int v_;
  std::vector<Row> rows_;
  int strips_ = 0;
};

Face facing(Face own, int quarters) {
  const Vec3 way = turned(unit(axis_of(own), side_of(own)), quarters);
  for (const int axis : {0, 1, 2}) {
    if (std::abs(along(way, axis)) > 0.5) return face_at(axis, along(way, axis) < 0 ? low : high);
  }
  return own;
}

}  // namespace

void add_item_mounts(Build& build, const PlacedHardware& hardware, const std::vector<Host>& rails) {
  for (const Face face : all_faces) {
    HeldFace held(build, hardware, face);
    for (std::size_t i = 0; i < build.box.items.size(); ++i) {
      const PlacedItem& placed = build.box.items[i];
      const auto& mounts = placed.item->mounts;
      if (!mounts || facing(*mounts->face, placed.quarters) != face) continue;
      for (std::size_t k = 0; k < mounts->at.size(); ++k) {
        const Vec3 at = place_on(placed, hole_in_item(*placed.item, mounts->at[k])) + build.shift_of(i);
        held.add({i, k + 1, at, &*mounts});
      }
    }
    held.run(rails);
  }
}

}  // namespace fitup::plan

// The shell of cut sheet: walls, floor and top with openings, standing plates at the front and the back, ribs.
// Entry: build_of_plates.
#include "plan/plate/shell.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "diag/catalogue.h"
#include "fitup/tolerances.h"
#include "plan/face_axes.h"
#include "plan/landing_width.h"
#include "plan/plate/base_ring.h"
#include "plan/plate/joints.h"
#include "plan/plate/panels.h"
#include "plan/rails.h"
#include "plan/rule_steps.h"

namespace fitup::plan::plate {

namespace {

constexpr double entry_radius_mm = 1;
constexpr double beside_wall_mm = 2;     // from a wall to a rail
constexpr double rib_tabs = 6.25;        // a rib's tabs are in its lowest part, in thicknesses,
constexpr double landing_of_wall = 1.5;  // thickness of an outward ring, so that it stays flat (common practice)
constexpr double least_border = 4;       // in thicknesses: a slot, and as much on both sides of it

// In which turn a plate finds its place, and along which way: the floor, what stands under and beside it, the top, and
// the walls last, whose slots and notches all others' tabs go through.
struct Coming {
  int turn;
  Vec3 way;
};
constexpr Coming floor_comes{0, axis::minus_z};
constexpr Coming rib_comes{1, axis::z};
constexpr Coming top_comes{3, axis::minus_z};
Face end_face(Side depth) { return depth == low ? Face::front : Face::back; }
Coming end_comes(int turn, Side depth) { return {turn, depth == low ? axis::y : axis::minus_y}; }
Coming wall_comes(Side side) { return {5, side == low ? axis::x : axis::minus_x}; }

class Shells {
 public:
  explicit Shells(Build& build)
      : build_(build), sheets_(sheets_of(build)), t_(sheets_.t_mm), border_(sheets_.border_mm) {}

  bool run() {
    if (!take_ring() || !take_tray()) return false;
    size_shell();
    if (!holds_slots() || !borders_apart() || !add_ring()) return false;
    plan_panels();
    TabRule rule{tables::find_material(material_of(build_))->steel, tab_out_mm()};
    const auto ids = add_panels(build_, panels_, rule);
    if (!ids) return false;
    if (ring_) weld_to_ring(build_, *ring_, panels_, *ids);
    offer_plates(build_, sheets_, standing(*ids), ribs_);
    return true;
  }

 private:
  [[nodiscard]] Shell& shell() const { return build_.shell; }
  [[nodiscard]] Vec3 size() const { return build_.shell.size; }

  [[nodiscard]] double tab_out_mm() const {
    const double some = std::clamp(t_ / 3, 1.0, 2.0);
    const Tabs tabs = *build_.box_spec().plates.tabs;
    return tabs == Tabs::flush ? 0 : tabs == Tabs::proud ? some : -some;
  }

  void size_shell() {
    Shell& shell = build_.shell;
    const Vec3 inside = build_.box.inside;
    shell.side_wall_mm = t_;
    shell.end_wall_mm = t_;
    shell.size = {inside.x + 2 * t_, inside.y + 2 * t_, 0};
    shell.deck_mm = sheets_.legs_up ? t_ : border_;
    shell.landing_mm = landing_of_wall * t_;
    shell.rail_inset_mm = std::max(t_, side_landing_mm(build_)) + beside_wall_mm;
    shell.rail_beside_mm = {t_ + beside_wall_mm, t_ + beside_wall_mm};
    shell.deck_root_mm = 2 * t_;
    if (ring_) stand_on_ring();
    if (tray_) stand_in_tray();
    shell.top_root_mm = 2 * t_;
    shell.weld_gap_mm = weld_gap_mm;
    shell.toes_down = !sheets_.legs_up;
    shell.floor_mm = shell.deck_mm + build_.box_spec().rails.thickness->mm();
    shell.deck = tray_   ? strips(*tray_, border_, 0)
                 : ring_ ? ring_->horizontal_legs(low, shell.deck_mm - ring_->bottom().thickness_mm())
                         : strips(build_, sheets_, 0, shell.deck_mm - t_, shell.deck_mm);
    if (!needs_rails(build_)) shell.floor_mm = shell.deck_mm;
    shell.size.z = shell.floor_mm + inside.z + t_;
    shell.opening_z = {std::max(sill(low), sill(high)), shell.size.z - border_};
    shell.landing_z = shell.opening_z;
  }

  // The ring's lying legs are the deck.
  void stand_on_ring() {
    Shell& shell = build_.shell;
    shell.deck_mm = ring_->bottom().standing_mm;
    shell.deck_root_mm = ring_->bottom().root_mm();
    // Beside the fillet of a wall that stands on it.
    const double inset = t_ + std::max(t_, ring_->bottom().thickness_mm()) + beside_wall_mm;
    shell.rail_inset_mm = inset;
    shell.rail_beside_mm = {inset, inset};
  }

  bool take_ring() {
    if (!build_.box_spec().plates.base_ring) return true;
    const auto ring = base_ring_of(build_);
    if (ring) ring_.emplace(*ring);
    return ring.has_value();
  }

  // What is welded on the base keeps clear of the bends, and so of their inside, on which nothing could lie.
  void stand_in_tray() {
    Shell& shell = build_.shell;
    tray_->frame = shell.size;
    for (const Side depth : {low, high}) tray_->set_in[depth] = has_wall(build_, depth) ? t_ : 0;
    const Box3 clear = tray_->clear_base();
    shell.deck_root_mm = clear.low.x;
    shell.rail_inset_mm = std::max({clear.low.y, shell.size.y - clear.high.y, clear.low.x});
    shell.rail_beside_mm = {clear.low.x, shell.rail_inset_mm};
  }

  bool take_tray() {
    if (*build_.box_spec().plates.floor != FloorKind::tray) return true;
    tray_ = tray_of(build_, t_, border_);
    if (!tray_) return false;
    sheets_.sill_mm = tray_->depth_mm;
    sheets_.tray = &*tray_;
    return true;
  }

  bool add_ring() {
    if (!ring_) return true;
    const Sourced<std::string>& section = *build_.box_spec().plates.base_ring;
    return ring_->members_apart(section, section) && ring_->add(low);
  }

  [[nodiscard]] double sill(Side depth) const { return sill_z(build_, sheets_, depth); }

  [[nodiscard]] const Place& border_place() const {
    const auto& border = build_.box_spec().plates.border;
    return border ? border->place : build_.box_spec().frame.section.place;
  }

  bool holds_slots() {
    const double least = least_border * t_;
    if (border_ >= least - tolerance::contact_mm) return true;
    build_.diagnostics.add(diag::say<"border-too-narrow">(border_place(), build_.in_words(border_), build_.in_words(t_),
                                                          build_.at_least(least)));
    return false;
  }

  bool borders_apart() {
    const double least = 2 * border_ + 2 * window_radius_mm;
    const bool wide = size().x >= least;
    if (wide && size().y >= least && size().z >= shell().opening_z[low] + border_ + 2 * window_radius_mm) return true;
    const bool deep = wide && size().y < least;
    build_.diagnostics.add(diag::say<"borders-meet">(
        border_place(),
        build_.in_words(!wide  ? size().x
                        : deep ? size().y
                               : size().z),
        !wide  ? "wide"
        : deep ? "deep"
               : "high",
        build_.in_words(border_),
        build_.at_least(wide && !deep ? shell().opening_z[low] + border_ + 2 * window_radius_mm : least)));
    return false;
  }

  Panel& panel(const char* mark, const std::string& name, Role role, const std::string& instance, const Box3& box,
               int square, const std::string& key, const Coming& come) {
    panels_.push_back({{mark, name, role, material_of(build_)},
                       instance,
                       {build_.key(key), place_of(key), "frame"},
                       box,
                       square,
                       {},
                       {},
                       come.way,
                       come.turn,
                       1e9});
    return panels_.back();
  }

  [[nodiscard]] Place place_of(const std::string& key) const {
    const BoxSpec& box = build_.box_spec();
    for (const Face face : all_faces) {
      if (key == "face." + std::string(to_text(face))) return box.face(face).place;
    }
    return box.build.place;
  }

  // Where items go in, the corners are as sharp as lets them pass 1 mm beside the edges.
  void window(Panel& panel, Face face, Vec2 low_corner, Vec2 high_corner) const {
    const Vec2 size = high_corner - low_corner;
    const double wanted = std::max(*build_.box_spec().face(face).entry ? entry_radius_mm : window_radius_mm,
                                   build_.spec.cutter.rules.inner_radius_mm);
    const double radius = std::min({wanted, size.x / 2, size.y / 2});
    panel.windows.push_back(radius > 0 ? Loop::rounded_rectangle(low_corner, high_corner, radius)
                                       : Loop::rectangle(low_corner, high_corner));
  }

  void plan_panels() {
    const Vec3 s = size();
    for (const Side side : {low, high}) add_wall(side);
    Panel& top = panel("PLT03", "top", Role::wall, "top", {{0, 0, s.z - t_}, s}, 2, "face.top", top_comes);
    if (is_open(build_, Face::top)) window(top, Face::top, {border_, border_}, {s.x - border_, s.y - border_});
    if (!ring_) add_floor();
    for (const Side depth : {low, high}) add_end(depth);
    add_ribs();
  }

  void add_floor() {
    if (tray_) return add_tray();
    const Vec3 s = size();
    floor_ = panels_.size();
    Panel& deck = panel("PLT04", "floor", Role::wall, "floor",
                        {{0, 0, shell().deck_mm - t_}, {s.x, s.y, shell().deck_mm}}, 2, "face.bottom", floor_comes);
    if (is_open(build_, Face::bottom)) window(deck, Face::bottom, {border_, border_}, {s.x - border_, s.y - border_});
  }

  void add_tray() {
    const Vec3 s = size();
    floor_ = panels_.size();
    Panel& base = panel("PLT04", "tray", Role::wall, "tray", tray_->flat_base(), 2, "plates.floor", floor_comes);
    base.tray = &*tray_;
    const Vec3 corner = tray_->base().low;
    if (is_open(build_, Face::bottom)) {
      window(base, Face::bottom, {border_ - corner.x, border_ - corner.y},
             {s.x - border_ - corner.x, s.y - border_ - corner.y});
    }
    for (const int across : {1, 0}) {
      for (const Side side : {low, high}) {
        panel("PLT04", "tray", Role::wall, "tray", tray_->edge(across, side), across, "plates.floor", floor_comes)
            .edge_of = floor_;
      }
    }
  }

  void add_wall(Side side) {
    const Vec3 s = size();
    const Face face = side == low ? Face::left : Face::right;
    const double x = side == low ? 0 : s.x - t_;
    const std::string word(to_text(face));
    Panel& wall = panel("PLT01", "side wall", Role::wall, word + " wall", {{x, 0, begin_mm()}, {x + t_, s.y, s.z}}, 0,
                        "face." + word, wall_comes(side));
    if (is_open(build_, face))
      window(wall, face, {border_, free_from_mm(build_, face) + border_ - begin_mm()},
             {s.y - border_, s.z - border_ - begin_mm()});
  }

  void add_end(Side depth) {
    const Vec3 s = size();
    const double y = depth == low ? 0 : s.y - t_;
    const std::string word = depth == low ? "front" : "back";
    const auto box = [&](double low_z, double high_z) { return Box3{{0, y, low_z}, {s.x, y + t_, high_z}}; };
    const char* mark = depth == low ? "PLT05" : "PLT06";
    first_of_end_[depth] = panels_.size();
    if (has_wall(build_, depth) || has_ring(build_, depth)) {
      const std::string name = word + (has_wall(build_, depth) ? " wall" : " ring");
      // A ring stands on the edge of a tray, a wall beside it.
      const double begin = tray_ && !has_wall(build_, depth) ? sill(depth) : begin_mm();
      Panel& whole = panel(mark, name, Role::wall, name, box(begin, s.z), 1, "face." + word, end_comes(2, depth));
      if (!has_wall(build_, depth)) open_ring(whole, depth);
      return;
    }
    if (!ring_ && !tray_)
      panel(mark, "sill", Role::wall, word + " sill", box(0, sill(depth)), 1, "face." + word, end_comes(2, depth));
    panel(depth == low ? "PLT07" : "PLT08", "header", Role::wall, word + " header", box(s.z - border_, s.z), 1,
          "face." + word, end_comes(4, depth));
  }

  // On a base ring or a tray it is open down to that.
  void open_ring(Panel& whole, Side depth) const {
    const Vec3 s = size();
    const double beside = t_ + landing_mm(build_, depth);
    if (ring_ || tray_) {
      whole.edges[bottom_side].push_back({{beside, s.x - beside}, whole.box.low.z - (s.z - border_)});
    } else {
      window(whole, end_face(depth), {beside, sill(depth)}, {s.x - beside, s.z - border_});
    }
  }

  void add_ribs() {
    int number = 0;
    first_rib_ = panels_.size();
    for (const RibPlace& rib : ribs_of(build_, sheets_, ring_ ? &ring_->bottom() : nullptr)) {
      const int across = rib.along == 0 ? 1 : 0;
      Panel& plate =
          panel("PLT09", "rib", Role::rib, fmt::format("rib {}", ++number), rib.box, across, "rails", rib_comes);
      ribs_.push_back(rib);
      if (ring_) {
        plate = rib_on_ring(*ring_, rib, plate);
        continue;
      }
      const double from = along(rib.under_rail.low, rib.along) - along(rib.box.low, rib.along);
      if (is_open(build_, Face::bottom))
        plate.edges[top_side].push_back({{from, from + along(rib.under_rail.size(), rib.along)}, t_});
      plate.tabs_below_mm = rib_tabs * t_;
      if (rib.along == 1) free_for_rows(plate);
    }
  }

  // Above its tabs a rib stands back from what comes through the sill.
  void free_for_rows(Panel& rib) const {
    const double height = rib.box.size().z;
    for (const Side4 end : {left_side, right_side})
      rib.edges[end].push_back({{rows_above * t_, height}, -behind_rows * t_});
  }

  [[nodiscard]] double begin_mm() const { return walls_begin_mm(build_); }

  [[nodiscard]] StandingPlates standing(const std::vector<InstanceId>& ids) const {
    StandingPlates out;
    out.wall = {ids[0], ids[1]};
    out.top = ids[2];
    if (floor_) out.floor = ids[*floor_];
    for (const Side depth : {low, high}) {
      const std::size_t first = first_of_end_[depth];
      const bool whole = has_wall(build_, depth) || has_ring(build_, depth);
      const bool on_tray = tray_ && !has_wall(build_, depth);
      if (whole || !ring_) out.below[depth] = on_tray ? ids[*floor_] : ids[first];
      out.above[depth] = ids[whole || ring_ || tray_ ? first : first + 1];
    }
    for (std::size_t i = 0; i < ribs_.size(); ++i) out.ribs.push_back(ids[first_rib_ + i]);
    return out;
  }

  Build& build_;
  Sheets sheets_;
  double t_;
  double border_;
  std::vector<Panel> panels_;
  std::vector<RibPlace> ribs_;
  std::optional<AngleRings> ring_;  // that it stands on
  std::optional<Tray> tray_;        // that is its floor
  std::optional<std::size_t> floor_;
  std::array<std::size_t, 2> first_of_end_{};
  std::size_t first_rib_ = 0;
};

}  // namespace

Sheets sheets_of(const Build& build) {
  const BoxSpec& box = build.box_spec();
  const Section& section = *build.spec.section(*box.frame.section);
  const Section& upright = *build.spec.section(*box.frame.uprights);
  // As thick as the thickest of what it stands for.
  const double thickest = std::max(section.thickness_mm, upright.thickness_mm);
  const double border = box.plates.border ? (*box.plates.border)->mm() : std::max(section.leg_a_mm, section.leg_b_mm);
  return {box.plates.thickness ? (*box.plates.thickness)->mm() : thickest, border,
          *box.plates.floor == FloorKind::tray || *box.frame.bottom_legs == Legs::up, border};
}

bool is_open(const Build& build, Face face) { return *build.box_spec().face(face).closed_by != Closure::plate; }

bool has_ring(const Build& build, Side depth) {
  const FaceSpec& face = build.box_spec().face(end_face(depth));
  return *face.closed_by == Closure::cover && *face.style == CoverStyle::flat && *face.landing == Landing::inward;
}

bool has_wall(const Build& build, Side depth) {
  return *build.box_spec().face(end_face(depth)).closed_by == Closure::plate;
}

double landing_mm(const Build& build, Side depth) { return landing_width_mm(build, end_face(depth)); }

// Above the floor as much of a plate with an opening stays as the cutter needs beside the floor's slots.
double sill_z(const Build& build, const Sheets& sheets, Side depth) {
  const Shell& shell = build.shell;
  if (build.box_spec().plates.base_ring) return shell.deck_mm;
  if (sheets.legs_up) return sheets.sill_mm;
  if (!has_ring(build, depth)) return shell.deck_mm;
  const CutRules& rules = build.spec.cutter.rules;
  const JointFit fit = joint_fit(sheets.t_mm, tables::find_material(material_of(build))->steel, rules.tolerance);
  const double web = beside_slot_mm(fit, rules.smallest_web);
  const RuleSteps steps = steps_of(*build.spec.section(*build.box_spec().frame.section));
  return shell.deck_mm + std::max(steps.place_up(web), shell.floor_mm - shell.deck_mm);
}

std::vector<Host> strips(const Build& build, const Sheets& sheets, InstanceId id, double low_z, double high_z) {
  const Vec3 s = build.shell.size;
  const double border = sheets.border_mm;
  return {{id, {{0, 0, low_z}, {s.x, border, high_z}}},
          {id, {{0, s.y - border, low_z}, {s.x, s.y, high_z}}},
          {id, {{0, border, low_z}, {border, s.y - border, high_z}}},
          {id, {{s.x - border, border, low_z}, {s.x, s.y - border, high_z}}}};
}

}  // namespace fitup::plan::plate

namespace fitup::plan {

bool build_of_plates(Build& build) { return plate::Shells(build).run(); }

}  // namespace fitup::plan

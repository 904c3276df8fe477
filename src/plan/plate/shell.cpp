// The shell of cut sheet: walls, floor and top with openings, standing plates at the front and the back, ribs.
// Entry: build_of_plates.
#include "plan/plate/shell.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "diag/catalogue.h"
#include "fitup/tolerances.h"
#include "plan/face_axes.h"
#include "plan/plate/panels.h"
#include "plan/rails.h"

namespace fitup::plan::plate {

namespace {

constexpr double window_radius_mm = 20;  // in the corners of openings: what stiffens them
constexpr double entry_radius_mm = 1;
constexpr double beside_wall_mm = 2;  // from a wall to a rail
constexpr double weld_gap_mm = 1;
constexpr double rib_tabs = 6.25;        // a rib's tabs are in its lowest part, in thicknesses,
constexpr double behind_rows = 4;        // what may stand behind them, in thicknesses
constexpr double rows_above = 4.5;       // and rows of screws in the middle of what is above this
constexpr double landing_of_wall = 1.5;  // thickness of an outward ring, so that it stays flat (common practice)
constexpr double least_border = 4;       // in thicknesses: a slot, and as much on both sides of it
constexpr double least_rib_mm = 15;      // lower ones stiffen nothing
constexpr double upright_of_depth = 3;   // a wall is offered to what is screwed to it as far in as its depth over this

std::size_t index(Face face) { return static_cast<std::size_t>(face); }

// In which turn a plate finds its place, and along which way: the floor, what stands under and beside it, the top, and
// the walls last, whose slots and notches all others' tabs go through.
struct Coming {
  int turn;
  Vec3 way;
};
constexpr Coming floor_comes{0, axis::minus_z};
constexpr Coming rib_comes{1, axis::z};
constexpr Coming top_comes{3, axis::minus_z};
Coming end_comes(int turn, Side depth) { return {turn, depth == low ? axis::y : axis::minus_y}; }
Coming wall_comes(Side side) { return {5, side == low ? axis::x : axis::minus_x}; }

class Shells {
 public:
  explicit Shells(Build& build)
      : build_(build), sheets_(sheets_of(build)), t_(sheets_.t_mm), border_(sheets_.border_mm) {}

  bool run() {
    size_shell();
    if (!holds_slots() || !borders_apart()) return false;
    plan_panels();
    TabRule rule{tables::find_material(material_of(build_))->steel, tab_out_mm()};
    const auto ids = add_panels(build_, panels_, rule);
    if (!ids) return false;
    ids_ = *ids;
    offer();
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

  // A flat cover on an inward landing lies on one plate with an opening; where the face is a wall, on a whole one.
  [[nodiscard]] bool has_ring(Side depth) const {
    const FaceSpec& face = build_.box_spec().face(depth == low ? Face::front : Face::back);
    return *face.closed_by == Closure::cover && *face.style == CoverStyle::flat && *face.landing == Landing::inward;
  }
  [[nodiscard]] bool has_wall(Side depth) const {
    return *build_.box_spec().face(depth == low ? Face::front : Face::back).closed_by == Closure::plate;
  }
  [[nodiscard]] double landing_mm(Side depth) const {
    return build_.box_spec().face(depth == low ? Face::front : Face::back).landing_width->mm();
  }

  // Of a plate with an opening: above the floor as much stays as the cutter needs beside the floor's slots.
  [[nodiscard]] double sill_z(Side depth) const {
    if (sheets_.legs_up) return border_;
    return shell().deck_mm + (has_ring(depth) ? std::max(t_, shell().floor_mm - shell().deck_mm) : 0);
  }

  void size_shell() {
    Shell& shell = build_.shell;
    const Vec3 inside = build_.box.inside;
    shell.side_wall_mm = t_;
    shell.end_wall_mm = t_;
    shell.size = {inside.x + 2 * t_, inside.y + 2 * t_, 0};
    shell.deck_mm = sheets_.legs_up ? t_ : border_;
    shell.rail_inset_mm = t_ + beside_wall_mm;
    shell.rail_beside_mm = {t_ + beside_wall_mm, t_ + beside_wall_mm};
    shell.landing_mm = landing_of_wall * t_;
    shell.deck_root_mm = 2 * t_;
    shell.top_root_mm = 2 * t_;
    shell.weld_gap_mm = weld_gap_mm;
    shell.toes_down = !sheets_.legs_up;
    shell.floor_mm = shell.deck_mm + build_.box_spec().rails.thickness->mm();
    shell.deck = strips(0, shell.deck_mm - t_, shell.deck_mm);
    if (!needs_rails(build_)) shell.floor_mm = shell.deck_mm;
    shell.size.z = shell.floor_mm + inside.z + t_;
    shell.opening_z = {std::max(sill_z(low), sill_z(high)), shell.size.z - border_};
    shell.landing_z = shell.opening_z;
  }

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

  // Front, back, left, right; the last two end before the first two.
  [[nodiscard]] std::vector<Host> strips(InstanceId id, double low_z, double high_z) const {
    const Vec3 s = size();
    return {{id, {{0, 0, low_z}, {s.x, border_, high_z}}},
            {id, {{0, s.y - border_, low_z}, {s.x, s.y, high_z}}},
            {id, {{0, border_, low_z}, {border_, s.y - border_, high_z}}},
            {id, {{s.x - border_, border_, low_z}, {s.x, s.y - border_, high_z}}}};
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
    Panel& deck = panel("PLT04", "floor", Role::wall, "floor",
                        {{0, 0, shell().deck_mm - t_}, {s.x, s.y, shell().deck_mm}}, 2, "face.bottom", floor_comes);
    if (is_open(build_, Face::bottom)) window(deck, Face::bottom, {border_, border_}, {s.x - border_, s.y - border_});
    for (const Side depth : {low, high}) add_end(depth);
    add_ribs();
  }

  void add_wall(Side side) {
    const Vec3 s = size();
    const Face face = side == low ? Face::left : Face::right;
    const double x = side == low ? 0 : s.x - t_;
    const std::string word(to_text(face));
    Panel& wall = panel("PLT01", "side wall", Role::wall, word + " wall", {{x, 0, 0}, {x + t_, s.y, s.z}}, 0,
                        "face." + word, wall_comes(side));
    if (is_open(build_, face)) window(wall, face, {border_, shell().deck_mm + border_}, {s.y - border_, s.z - border_});
  }

  void add_end(Side depth) {
    const Vec3 s = size();
    const double y = depth == low ? 0 : s.y - t_;
    const std::string word = depth == low ? "front" : "back";
    const auto box = [&](double low_z, double high_z) { return Box3{{0, y, low_z}, {s.x, y + t_, high_z}}; };
    const char* mark = depth == low ? "PLT05" : "PLT06";
    first_of_end_[depth] = panels_.size();
    if (has_wall(depth) || has_ring(depth)) {
      Panel& whole =
          panel(mark, word + (has_wall(depth) ? " wall" : " ring"), Role::wall,
                word + (has_wall(depth) ? " wall" : " ring"), box(0, s.z), 1, "face." + word, end_comes(2, depth));
      const double beside = t_ + landing_mm(depth);
      if (!has_wall(depth))
        window(whole, depth == low ? Face::front : Face::back, {beside, sill_z(depth)}, {s.x - beside, s.z - border_});
      return;
    }
    panel(mark, "sill", Role::wall, word + " sill", box(0, sill_z(depth)), 1, "face." + word, end_comes(2, depth));
    panel(depth == low ? "PLT07" : "PLT08", "header", Role::wall, word + " header", box(s.z - border_, s.z), 1,
          "face." + word, end_comes(4, depth));
  }

  void add_ribs() {
    int number = 0;
    first_rib_ = panels_.size();
    for (const RibPlace& rib : ribs_of(build_, sheets_)) {
      const int across = rib.along == 0 ? 1 : 0;
      Panel& plate =
          panel("PLT09", "rib", Role::rib, fmt::format("rib {}", ++number), rib.box, across, "rails", rib_comes);
      const double from = along(rib.under_rail.low, rib.along) - along(rib.box.low, rib.along);
      if (is_open(build_, Face::bottom))
        plate.edges[top_side].push_back({{from, from + along(rib.under_rail.size(), rib.along)}, t_});
      plate.tabs_below_mm = rib_tabs * t_;
      if (rib.along == 1) free_for_rows(plate);
      ribs_.push_back(rib);
    }
  }

  // Above its tabs a rib stands back from what comes through the sill.
  void free_for_rows(Panel& rib) const {
    const double height = rib.box.size().z;
    for (const Side4 end : {left_side, right_side})
      rib.edges[end].push_back({{rows_above * t_, height}, -behind_rows * t_});
  }

  void offer() {
    offer_level();
    for (const Side depth : {low, high}) offer_end(depth);
    offer_walls();
    // On a whole floor the rails lie on that, the ribs stand under it.
    for (std::size_t i = 0; is_open(build_, Face::bottom) && i < ribs_.size(); ++i) {
      shell().cross_bars.push_back({ids_[first_rib_ + i], ribs_[i].under_rail});
    }
  }

  void offer_level() {
    const Vec3 s = size();
    const InstanceId top = ids_[2];
    const InstanceId deck = ids_[3];
    const std::vector<Host> above = strips(top, s.z - t_, s.z);
    shell().deck = strips(deck, shell().deck_mm - t_, shell().deck_mm);
    shell().top_face_deck = {above[0], above[1]};
    shell().top_side_deck = {above[2], above[3]};
    shell().beside[index(Face::top)] = above;
    if (!is_open(build_, Face::top)) build_.panels[index(Face::top)] = top;
    if (!is_open(build_, Face::bottom)) {
      build_.panels[index(Face::bottom)] = deck;
      shell().deck.push_back(
          {deck, {{border_, border_, shell().deck_mm - t_}, {s.x - border_, s.y - border_, shell().deck_mm}}});
    }
    if (sheets_.legs_up) shell().beside[index(Face::bottom)] = shell().deck;
  }

  void offer_end(Side depth) {
    const Vec3 s = size();
    const double y = depth == low ? 0 : s.y - t_;
    const Face face = depth == low ? Face::front : Face::back;
    const bool whole = has_wall(depth) || has_ring(depth);
    const InstanceId below = ids_[first_of_end_[depth]];
    const InstanceId above = whole ? below : ids_[first_of_end_[depth] + 1];
    const double row_from = ribs_.empty() ? 0 : rows_above * t_;
    const double row_to = sheets_.legs_up ? border_ : shell().deck_mm - t_;
    shell().bottom[depth] = {below, {{0, y, sheets_.legs_up ? t_ : row_from}, {s.x, y + t_, row_to}}};
    shell().top[depth] = {above, {{0, y, s.z - border_}, {s.x, y + t_, s.z}}};
    auto& beside = shell().beside[index(face)];
    beside = {shell().bottom[depth], shell().top[depth]};
    if (!sheets_.legs_up) shell().beside[index(Face::bottom)].push_back(shell().bottom[depth]);
    if (has_wall(depth)) {
      build_.panels[index(face)] = below;
      beside = {{below, {{0, y, 0}, {s.x, y + t_, s.z}}}};
    }
    if (!has_ring(depth)) return;
    for (const Side side : {low, high}) {
      const double width = t_ + landing_mm(depth);
      const double x = side == low ? 0 : s.x - width;
      Host strip{below, {{x, y, sill_z(depth)}, {x + width, y + t_, s.z - border_}}};
      strip.root_mm = t_;
      shell().upright_face[depth][side] = strip;
      beside.push_back(strip);
    }
  }

  void offer_walls() {
    const Vec3 s = size();
    for (const Side side : {low, high}) {
      const Face face = side == low ? Face::left : Face::right;
      const double x = side == low ? 0 : s.x - t_;
      const InstanceId wall = ids_[side];
      const bool open = is_open(build_, face);
      const auto part = [&](double y0, double y1, double z0, double z1) {
        return Host{wall, {{x, y0, z0}, {x + t_, y1, z1}}};
      };
      auto& beside = shell().beside[index(face)];
      if (open) {
        beside = {part(0, s.y, 0, shell().deck_mm + border_), part(0, s.y, s.z - border_, s.z),
                  part(0, border_, 0, s.z), part(s.y - border_, s.y, 0, s.z)};
      } else {
        beside = {part(0, s.y, 0, s.z)};
        build_.panels[index(face)] = wall;
      }
      if (!sheets_.legs_up) shell().beside[index(Face::bottom)].push_back(part(0, s.y, 0, shell().deck_mm));
      const double reach = open ? border_ : std::max(border_, s.y / upright_of_depth);
      for (const Side depth : {low, high}) {
        const double from = depth == low ? 0 : s.y - reach;
        shell().upright[depth][side] = part(from, from + reach, sill_z(depth), s.z - border_);
      }
    }
  }

  Build& build_;
  Sheets sheets_;
  double t_;
  double border_;
  std::vector<Panel> panels_;
  std::vector<InstanceId> ids_;
  std::vector<RibPlace> ribs_;
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
  return {box.plates.thickness ? (*box.plates.thickness)->mm() : thickest,
          box.plates.border ? (*box.plates.border)->mm() : std::max(section.leg_a_mm, section.leg_b_mm),
          *box.frame.bottom_legs == Legs::up};
}

bool is_open(const Build& build, Face face) { return *build.box_spec().face(face).closed_by != Closure::plate; }

std::vector<RibPlace> ribs_of(const Build& build, const Sheets& sheets) {
  const Shell& shell = build.shell;
  const double t = sheets.t_mm;
  const double top = shell.deck_mm - t;
  if (sheets.legs_up || top < least_rib_mm || shell.floor_mm == shell.deck_mm) return {};
  const int run = rails_across(build) ? 0 : 1;
  const double length = run == 0 ? shell.size.x : shell.size.y;
  const double width = run == 0 ? shell.size.y : shell.size.x;
  std::vector<RibPlace> out;
  for (const RailPlace& place : rail_places(build)) {
    const double middle = place.rail.middle();
    // Over the floor's border the rail has its rib there.
    const double from_side = std::min(middle, width - middle);
    if (from_side < sheets.border_mm + t) continue;
    const double from_end =
        sheets.border_mm + (from_side < sheets.border_mm + window_radius_mm + t ? window_radius_mm : weld_gap_mm);
    RibPlace rib{{}, run, {}};
    rib.box = {{middle - t / 2, 0, 0}, {middle + t / 2, length, top}};
    rib.under_rail = {{middle - t / 2, from_end, top}, {middle + t / 2, length - from_end, shell.deck_mm}};
    if (run == 0) {
      for (Box3* box : {&rib.box, &rib.under_rail}) {
        std::swap(box->low.x, box->low.y);
        std::swap(box->high.x, box->high.y);
      }
    }
    out.push_back(rib);
  }
  return out;
}

}  // namespace fitup::plan::plate

namespace fitup::plan {

bool build_of_plates(Build& build) { return plate::Shells(build).run(); }

}  // namespace fitup::plan

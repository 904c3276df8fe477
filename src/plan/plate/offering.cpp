// What a shell of plates offers to what is screwed and welded to it.
// Entry: offer_plates.
#include <algorithm>

#include <fmt/format.h>

#include "diag/catalogue.h"
#include "fitup/tolerances.h"
#include "plan/bends.h"
#include "plan/face_axes.h"
#include "plan/flange_edges.h"
#include "plan/holes.h"
#include "plan/nut_strip.h"
#include "plan/plate/joints.h"
#include "plan/plate/shell.h"
#include "plan/screw_fixing.h"

namespace fitup::plan::plate {

namespace {

constexpr double upright_of_depth = 3;  // a wall is offered to what is screwed to it as far in as its depth over this

std::size_t index(Face face) { return static_cast<std::size_t>(face); }

class Offering {
 public:
  Offering(Build& build, const Sheets& sheets, const StandingPlates& plates, const std::vector<RibPlace>& ribs)
      : build_(build), sheets_(sheets), plates_(plates), ribs_(ribs), t_(sheets.t_mm), border_(sheets.border_mm) {}

  void run() {
    offer_top();
    if (plates_.floor) offer_floor(*plates_.floor);
    for (const Side depth : {low, high}) offer_end(depth);
    offer_walls();
    // On a whole floor the rails lie on that, the ribs stand under it.
    const bool lie_on_ribs = on_ring() || is_open(build_, Face::bottom);
    for (std::size_t i = 0; lie_on_ribs && i < ribs_.size(); ++i) {
      shell().cross_bars.push_back({plates_.ribs[i], ribs_[i].under_rail});
    }
  }

 private:
  [[nodiscard]] Shell& shell() const { return build_.shell; }
  [[nodiscard]] Vec3 size() const { return build_.shell.size; }
  [[nodiscard]] bool on_ring() const { return !plates_.floor; }
  [[nodiscard]] double sill(Side depth) const { return sill_z(build_, sheets_, depth); }

  void offer_top() {
    const Vec3 s = size();
    const std::vector<Host> above = strips(build_, sheets_, plates_.top, s.z - t_, s.z);
    shell().top_face_deck = {above[0], above[1]};
    shell().top_side_deck = {above[2], above[3]};
    shell().beside[index(Face::top)] = above;
    if (!is_open(build_, Face::top)) build_.panels[index(Face::top)] = plates_.top;
  }

  void offer_floor(InstanceId floor) {
    const Vec3 s = size();
    shell().deck = sheets_.tray != nullptr ? strips(*sheets_.tray, border_, floor)
                                           : strips(build_, sheets_, floor, shell().deck_mm - t_, shell().deck_mm);
    if (!is_open(build_, Face::bottom)) {
      build_.panels[index(Face::bottom)] = floor;
      shell().deck.push_back(
          {floor, {{border_, border_, shell().deck_mm - t_}, {s.x - border_, s.y - border_, shell().deck_mm}}});
    }
    if (sheets_.legs_up) shell().beside[index(Face::bottom)] = shell().deck;
  }

  void offer_end(Side depth) {
    const Vec3 s = size();
    const double y = depth == low ? 0 : s.y - t_;
    auto& beside = shell().beside[index(depth == low ? Face::front : Face::back)];
    // A ring's own strips are there already.
    if (!on_ring()) offer_sill(depth, y);
    shell().top[depth] = {plates_.above[depth], {{0, y, s.z - border_}, {s.x, y + t_, s.z}}};
    if (has_wall(build_, depth)) {
      build_.panels[index(depth == low ? Face::front : Face::back)] = plates_.above[depth];
      if (!on_ring()) beside.clear();
      beside.push_back({plates_.above[depth], {{0, y, walls_begin_mm(build_)}, {s.x, y + t_, s.z}}});
      for (const Side side : {low, high}) offer_beside_wall(depth, side, border_);
      return;
    }
    beside.push_back(shell().top[depth]);
    if (!has_ring(build_, depth)) return;
    for (const Side side : {low, high}) {
      beside.push_back(offer_beside_wall(depth, side, t_ + landing_mm(build_, depth)));
    }
  }

  // What of the front or the back takes screws beside a wall, as wide as that.
  const Host& offer_beside_wall(Side depth, Side side, double width) {
    const Vec3 s = size();
    const double x = side == low ? 0 : s.x - width;
    const double y = depth == low ? 0 : s.y - t_;
    const double from = std::max(sill(depth), shell().deck_mm);
    Host strip{plates_.above[depth], {{x, y, from}, {x + width, y + t_, s.z - border_}}};
    strip.root_mm = t_;
    shell().upright_face[depth][side] = strip;
    return *shell().upright_face[depth][side];
  }

  // Of a tray's edge what keeps off its bend.
  [[nodiscard]] Box3 on_edge(Side depth) const {
    Box3 edge = sheets_.tray->edge(1, depth);
    edge.low.z = sheets_.tray->tangent_mm() + hole_to_bend_mm(t_);
    return edge;
  }

  // Of a sill's row, from its middle: what stands round it in the sill and behind it.
  struct RowNeeds {
    double hole = 0;   // half of it
    double reach = 0;  // of what holds the screws, behind the sill
    bool strip = false;
  };

  [[nodiscard]] RowNeeds needs_of(const FaceSpec& face) const {
    const ScrewSpec& screws = face.screws;
    const Thread& thread = *tables::find_thread(*screws.thread);
    const Material& material = *tables::find_material(material_of(build_));
    const bool strip = *screws.fixing == ScrewFixing::nut_strip && !holds_thread_itself(thread, material, t_);
    const auto hold = strip ? strip_hold(thread, &screws, material) : hold_of(*screws.fixing, thread, t_);
    // A strip's seat ends at the slots of what it runs between.
    const JointFit fit = joint_fit(t_, material.steel, build_.spec.cutter.rules.tolerance);
    const double play = strip ? fit.slot_mm() - t_ : 0;
    return {(hold ? hold->hole_mm : thread.clear_medium_mm) / 2, reach_behind_mm(build_, screws, t_) + play, strip};
  }

  // Where a row in the middle between them has what holds its screws clear of the floor's underside, and its holes,
  // where there is room above the ribs, the web below the floor's slots that the shop cuts without asking.
  [[nodiscard]] double below_floor(Side depth, double row_from, double floor) const {
    const Face end = depth == low ? Face::front : Face::back;
    const FaceSpec& face = build_.box_spec().face(end);
    if (*face.closed_by != Closure::cover) return floor;
    const RowNeeds needs = needs_of(face);
    const double above_ribs = row_from + std::max(needs.reach, needs.hole);
    const double below_slots = floor - std::max(needs.reach, needs.hole + cut_web_mm(build_, t_));
    const double unasked = floor - std::max(needs.reach, needs.hole + unasked_web_mm(build_, t_));
    const double middle = std::min((row_from + floor) / 2, std::max(unasked, std::min(above_ribs, below_slots)));
    row_has_room(end, needs.strip, below_slots - (row_from + (needs.strip ? needs.reach : needs.hole)));
    return std::max(2 * middle - row_from, row_from + tolerance::contact_mm);
  }

  // A strip runs past all ribs and slots; single screws may keep off them, and where they cannot, it is said there.
  void row_has_room(Face face, bool strip, double room_mm) const {
    if (ribs_.empty() || room_mm >= -tolerance::contact_mm) return;
    const BoxSpec& box = build_.box_spec();
    if (!strip) {
      shell().wider_border_mm[side_of(face)] = border_ - room_mm;
      return;
    }
    const auto& border = box.plates.border;
    build_.diagnostics.add(diag::say<"border-too-narrow">(
        border ? border->place : box.face(face).place, build_.in_words(border_), build_.in_words(t_),
        fmt::format("{} for the {} cover's strip of {} screws between the floor and its ribs",
                    build_.at_least(border_ - room_mm), to_text(face), *box.face(face).screws.thread)));
  }

  void offer_sill(Side depth, double y) {
    if (sheets_.tray != nullptr && !has_wall(build_, depth)) {
      shell().bottom[depth] = {*plates_.below[depth], on_edge(depth)};
      shell().beside[index(depth == low ? Face::front : Face::back)] = {shell().bottom[depth]};
      return;
    }
    const double row_from = ribs_.empty() ? 0 : rows_above * t_;
    const double row_to = sheets_.legs_up ? sheets_.sill_mm : below_floor(depth, row_from, shell().deck_mm - t_);
    shell().bottom[depth] = {*plates_.below[depth],
                             {{0, y, sheets_.legs_up ? t_ : row_from}, {size().x, y + t_, row_to}}};
    shell().beside[index(depth == low ? Face::front : Face::back)] = {shell().bottom[depth]};
    if (!sheets_.legs_up) shell().beside[index(Face::bottom)].push_back(shell().bottom[depth]);
  }

  void offer_walls() {
    for (const Side side : {low, high}) offer_wall(side);
  }

  void offer_wall(Side side) {
    const Vec3 s = size();
    const Face face = side == low ? Face::left : Face::right;
    const double x = side == low ? 0 : s.x - t_;
    const double begin = walls_begin_mm(build_);
    const InstanceId wall = plates_.wall[side];
    const bool open = is_open(build_, face);
    const auto part = [&](double y0, double y1, double z0, double z1) {
      return Host{wall, {{x, y0, z0}, {x + t_, y1, z1}}};
    };
    auto& beside = shell().beside[index(face)];
    if (open) {
      for (const Host& strip :
           {part(0, s.y, begin, free_from_mm(build_, face) + border_), part(0, s.y, s.z - border_, s.z),
            part(0, border_, begin, s.z), part(s.y - border_, s.y, begin, s.z)})
        beside.push_back(strip);
    } else {
      beside.push_back(part(0, s.y, begin, s.z));
      build_.panels[index(face)] = wall;
    }
    if (!sheets_.legs_up && !on_ring()) shell().beside[index(Face::bottom)].push_back(part(0, s.y, 0, shell().deck_mm));
    const double reach = open ? border_ : std::max(border_, s.y / upright_of_depth);
    for (const Side depth : {low, high}) {
      const double from = depth == low ? 0 : s.y - reach;
      shell().upright[depth][side] = part(from, from + reach, sill(depth), s.z - border_);
    }
  }

  Build& build_;
  const Sheets& sheets_;
  const StandingPlates& plates_;
  const std::vector<RibPlace>& ribs_;
  double t_;
  double border_;
};

}  // namespace

double side_landing_mm(const Build& build) {
  const BoxSpec& box = build.box_spec();
  for (const Side depth : {low, high}) {
    if (has_wall(build, depth) || has_ring(build, depth)) continue;
    const Face end = depth == low ? Face::front : Face::back;
    for (const Face side : {Face::left, Face::right}) {
      if (is_flanged(box, side) && edge_of(box, side, end) == CoverEdge::laps) return build.shell.landing_mm;
    }
  }
  return 0;
}

void offer_plates(Build& build, const Sheets& sheets, const StandingPlates& plates, const std::vector<RibPlace>& ribs) {
  Offering(build, sheets, plates, ribs).run();
}

}  // namespace fitup::plan::plate

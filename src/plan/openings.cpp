// Openings in the plates and covers that close the faces: holes, fields of holes, glands.
// Entry: add_openings.
#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "diag/catalogue.h"
#include "fitup/tolerances.h"
#include "plan/bends.h"
#include "plan/build.h"
#include "plan/coat.h"
#include "plan/hardware.h"
#include "plan/room.h"

namespace fitup::plan {

namespace {

constexpr double least_web_mm = 1;        // and at least the thickness (common practice)
constexpr double drain_mm = 8;            // common practice
constexpr double drain_room_mm = 3;       // water needs no more
constexpr double room_mm = 10;            // behind an opening: nothing nearer lets air, hose or hand through
constexpr double bend_per_thread = 2;     // a cable's first bend behind its gland, times the thread
constexpr double bend_per_hose = 2;       // likewise of a hose, times its diameter (common practice)
constexpr double drain_from_wall_mm = 8;  // its edge: clear of the bead inside

std::string_view word_of(OpeningKind kind) {
  constexpr std::array<std::string_view, 6> words{"round hole", "rectangle", "slot", "gland", "drain", "hose"};
  return words[static_cast<std::size_t>(kind)];
}

Vec2 in_mm(const Lengths<2>& pair) { return {(*pair)[0].mm(), (*pair)[1].mm()}; }

// Around the origin, grown by `grow` on every side.
Loop rectangle(Vec2 size, double radius, double grow) {
  const Vec2 half{size.x / 2 + grow, size.y / 2 + grow};
  const double r = std::min({radius + grow, half.x, half.y});
  return r > tolerance::contact_mm ? Loop::rounded_rectangle({-half.x, -half.y}, half, r)
                                   : Loop::rectangle({-half.x, -half.y}, half);
}

Loop outline(const OpeningSpec& opening, double grow) {
  if (*opening.kind == OpeningKind::rectangle) {
    return rectangle(in_mm(*opening.size), opening.corner_radius->mm(), grow);
  }
  if (*opening.kind == OpeningKind::slot) {
    const Vec2 size = in_mm(*opening.size);
    return rectangle(size, std::min(size.x, size.y) / 2, grow);
  }
  double diameter = opening.diameter ? (*opening.diameter)->mm() : drain_mm;
  if (*opening.kind == OpeningKind::gland) diameter = tables::find_gland(**opening.thread)->hole_mm;
  if (*opening.kind == OpeningKind::hose) diameter += 2 * opening.edge_strip->mm();
  return Loop::circle({}, diameter / 2 + grow);
}

bool meet(const Loop& a, const Loop& b) {
  const Box2 of_a = a.bounds();
  const Box2 of_b = b.bounds();
  if (of_a.low.x > of_b.high.x || of_b.low.x > of_a.high.x || of_a.low.y > of_b.high.y || of_b.low.y > of_a.high.y) {
    return false;
  }
  Box2 around = of_a;
  around.add(of_b.low);
  around.add(of_b.high);
  return flaw_in({Loop::rectangle(around.low - Vec2{1, 1}, around.high + Vec2{1, 1}), {a, b}}).has_value();
}

// The middles of a field of holes.
std::vector<Vec2> field(const OpeningSpec& opening, Vec2 middle) {
  const Vec2 pitch = opening.pitch ? in_mm(*opening.pitch) : Vec2{};
  std::vector<Vec2> out;
  for (int row = 0; row < *opening.rows; ++row) {
    for (int column = 0; column < *opening.columns; ++column) {
      out.push_back(middle + Vec2{(column - (*opening.columns - 1) / 2.0) * pitch.x,
                                  (row - (*opening.rows - 1) / 2.0) * pitch.y});
    }
  }
  return out;
}

// The openings of one face.
class Openings {
 public:
  Openings(Build& build, Face face, InstanceId panel) : build_(build), face_(face), panel_(panel) {
    const Box2 b = flat().profile.bounds();
    for (const Vec2 corner : {b.low, b.high}) {
      for (const double z : {0.0, flat().thickness_mm}) world_.add(pose().point({corner.x, corner.y, z}));
    }
  }

  void add(const OpeningSpec& opening) {
    const bool drilled = is_drilled(opening);
    if (!drilled && too_narrow(opening)) return;
    for (const Vec2 middle : middles(opening)) {
      if (const auto problem = problem_of(opening, middle)) {
        build_.diagnostics.add(diag::say<"no-room-for-opening">(opening.place, word_of(*opening.kind), *opening.why,
                                                                build_.draft.instance(panel_).name, *problem,
                                                                build_.in_words(web_mm())));
        return;
      }
      if (drilled) {
        flat().drilled.push_back({in_panel(middle), width_mm(opening), *opening.why});
      } else {
        flat().profile.holes.push_back(outline(opening, coat_mm(opening) / 2).moved(in_panel(middle)));
      }
      keep_room(opening, middle);
      if (*opening.kind == OpeningKind::gland && !add_gland(opening, middle)) return;
      if (*opening.kind == OpeningKind::hose) add_edge_strip(opening, middle);
    }
  }

 private:
  [[nodiscard]] Flat& flat() const { return std::get<Flat>(build_.draft.part(panel_).form); }
  [[nodiscard]] const Pose& pose() const { return build_.draft.pose(panel_); }
  [[nodiscard]] const CutRules& rules() const { return build_.spec.cutter.rules; }
  [[nodiscard]] static double width_mm(const OpeningSpec& opening) {
    const Vec2 size = outline(opening, 0).bounds().size();
    return std::min(size.x, size.y);
  }

  /// What goes through a hole asks for room for the coat; through a drain or a slot goes air or water.
  [[nodiscard]] double coat_mm(const OpeningSpec& opening) const {
    const bool free = *opening.kind == OpeningKind::drain || *opening.kind == OpeningKind::slot;
    return free ? 0 : coat_in_hole_mm(build_.spec);
  }

  // What is round and smaller than the cutter can cut is marked and drilled.
  [[nodiscard]] bool is_drilled(const OpeningSpec& opening) const {
    const bool round = *opening.kind == OpeningKind::round || *opening.kind == OpeningKind::drain;
    return round && width_mm(opening) < rules().smallest_hole * flat().thickness_mm - tolerance::snap_mm;
  }

  bool too_narrow(const OpeningSpec& opening) {
    const bool round = *opening.kind != OpeningKind::rectangle && *opening.kind != OpeningKind::slot;
    const double least_mm = (round ? rules().smallest_hole : rules().smallest_slot) * flat().thickness_mm;
    if (width_mm(opening) >= least_mm - tolerance::snap_mm) return false;
    build_.diagnostics.add(diag::say<"opening-too-narrow">(
        opening.place, word_of(*opening.kind), *opening.why, build_.in_words(width_mm(opening)),
        build_.in_words(flat().thickness_mm), build_.in_words(least_mm), round ? "smallest_hole" : "smallest_slot"));
    return true;
  }

  [[nodiscard]] double web_mm() const { return std::max(flat().thickness_mm, least_web_mm); }

  // Into the box, square to the face.
  [[nodiscard]] Vec3 inward() const {
    constexpr std::array<Vec3, 6> directions{axis::y, axis::minus_y, axis::x, axis::minus_x, axis::minus_z, axis::z};
    return directions[static_cast<std::size_t>(face_)];
  }

  // A place in the face, at the panel's outer surface, in the world.
  [[nodiscard]] Vec3 in_world(Vec2 at) const {
    switch (face_) {
      case Face::front: return {at.x, world_.low.y, at.y};
      case Face::back: return {at.x, world_.high.y, at.y};
      case Face::left: return {world_.low.x, at.x, at.y};
      case Face::right: return {world_.high.x, at.x, at.y};
      case Face::top: return {at.x, at.y, world_.high.z};
      case Face::bottom: break;
    }
    return {at.x, at.y, world_.low.z};
  }

  [[nodiscard]] Vec2 in_panel(Vec2 at) const {
    const Vec3 local = pose().local(in_world(at));
    return {local.x, local.y};
  }

  // Where the spec puts it, in the face's two axes.
  [[nodiscard]] Vec2 place_of(const OpeningSpec& opening) const {
    const Vec2 given = in_mm(*opening.at);
    switch (face_) {
      case Face::front:
      case Face::back: return {build_.in_frame({given.x, 0}, opening.at_from).x, given.y};
      case Face::left:
      case Face::right: return {build_.in_frame({0, given.x}, opening.at_from).y, given.y};
      case Face::top:
      case Face::bottom: break;
    }
    return build_.in_frame(given, opening.at_from);
  }

  [[nodiscard]] std::vector<Vec2> middles(const OpeningSpec& opening) const {
    if (opening.at) return field(opening, place_of(opening));
    std::vector<Vec2> out;
    for (const Vec2 corner : low_corners(opening)) {
      for (const Vec2 middle : field(opening, corner)) out.push_back(middle);
    }
    return out;
  }

  // From the frame's sides to what a drain stands beside: a leg that lies on the plate, or the wall if it stands on its
  // toe; in a tray what keeps off the bends.
  [[nodiscard]] Vec2 beside_corner() const {
    const Shell& shell = build_.shell;
    const Box3& left = shell.deck[2].box;
    const Box3& front = shell.deck[0].box;
    const BoxSpec& box = build_.box_spec();
    if (*box.build == BuildKind::plate && *box.plates.floor == FloorKind::tray) {
      const double more = std::max(0.0, flat().thickness_mm - drain_from_wall_mm);
      return {left.low.x + more, std::max(front.low.y, shell.size.y - shell.deck[1].box.high.y) + more};
    }
    if (shell.toes_down) return {shell.side_wall_mm, shell.end_wall_mm};
    return {left.size().x, front.size().y};
  }

  // In the bottom's four corners, inside the walls.
  [[nodiscard]] std::vector<Vec2> low_corners(const OpeningSpec& opening) const {
    const double r = outline(opening, 0).bounds().size().x / 2;
    const Vec2 beside = beside_corner();
    const double x = beside.x + drain_from_wall_mm + r;
    const double y = beside.y + drain_from_wall_mm + r;
    const Vec3 s = build_.shell.size;
    std::vector<Vec2> corners{{x, y}, {s.x - x, y}, {x, s.y - y}, {s.x - x, s.y - y}};
    for (Vec2& corner : corners) corner = beside_rails(opening, corner);
    return corners;
  }

  // As near to its corner as the rails leave it room, a millimetre at a time, along the front or the back if that is as
  // near as along the side.
  [[nodiscard]] Vec2 beside_rails(const OpeningSpec& opening, Vec2 corner) const {
    std::vector<Taken> rails = taken_by_steel(build_.draft);
    std::erase_if(rails, [&](const Taken& t) { return build_.draft.part(t.id).role != Role::rail; });
    const auto is_free = [&](Vec2 at) {
      const auto room = room_of(opening, at);
      return !room || !first_in(rails, *room);
    };
    const Vec2 half = 0.5 * Vec2{build_.shell.size.x, build_.shell.size.y};
    const Vec2 in{corner.x < half.x ? 1.0 : -1.0, corner.y < half.y ? 1.0 : -1.0};
    for (double off = 0; off < std::max(half.x, half.y); ++off) {
      for (const Vec2 at : {corner + Vec2{off * in.x, 0}, corner + Vec2{0, off * in.y}}) {
        const bool inside = std::abs(at.x - corner.x) < half.x && std::abs(at.y - corner.y) < half.y;
        if (inside && is_free(at)) return at;
      }
    }
    return corner;
  }

  // In words that follow the panel's name.
  [[nodiscard]] std::optional<std::string> problem_of(const OpeningSpec& opening, Vec2 middle) const {
    const Loop grown = outline(opening, web_mm()).moved(in_panel(middle));
    const std::string at = fmt::format("at ({}, {})", build_.in_words(middle.x), build_.in_words(middle.y));
    const Loop outer = flat().bends.empty() ? flat().profile.outer : bent_prisms(flat()).front().profile.outer;
    if (flaw_in({outer, {grown}})) return at + " comes too near to the plate's edge or leaves it";
    const double to_bend = hole_to_bend_mm(flat().thickness_mm);
    if (off_bends_mm(opening, middle) < to_bend - tolerance::contact_mm) {
      return fmt::format("{} comes nearer than {} to a bend", at, build_.in_words(to_bend));
    }
    for (const Loop& hole : flat().profile.holes) {
      if (meet(grown, hole)) return at + " comes too near to another hole or runs into it";
    }
    for (const DrilledHole& d : flat().drilled) {
      if (meet(grown, Loop::circle(d.at, d.diameter_mm / 2))) return at + " comes too near to the hole to " + d.purpose;
    }
    return std::nullopt;
  }

  // From the rectangle around an opening to the nearest bend.
  [[nodiscard]] double off_bends_mm(const OpeningSpec& opening, Vec2 middle) const {
    const Vec2 half = 0.5 * outline(opening, 0).bounds().size();
    double least = 1e9;
    for (const Vec2 to : {Vec2{half.x, 0}, Vec2{-half.x, 0}, Vec2{0, half.y}, Vec2{0, -half.y}}) {
      if (const auto off = from_bends_mm(flat(), in_panel(middle + to))) least = std::min(least, *off);
    }
    return least;
  }

  // Behind the plate, over the rectangle around the opening; behind a gland, where its cable goes.
  [[nodiscard]] std::optional<Box3> room_of(const OpeningSpec& opening, Vec2 middle) const {
    double from = flat().thickness_mm;
    double depth = *opening.kind == OpeningKind::drain ? drain_room_mm : room_mm;
    if (*opening.kind == OpeningKind::gland) {
      const Gland& gland = *tables::find_gland(**opening.thread);
      from = std::max(gland.inside_mm, from + gland.locknut_mm);
      depth = bend_per_thread * gland.hole_mm;
    }
    if (*opening.kind == OpeningKind::hose) {
      if (opening.edge_strip->mm() > tolerance::contact_mm) from += edge_lip_thickness_mm;
      depth = bend_per_hose * (*opening.diameter)->mm();
    }
    if (opening.room) depth = (*opening.room)->mm();
    if (depth <= tolerance::contact_mm) return std::nullopt;
    const Vec2 half = 0.5 * outline(opening, 0).bounds().size();
    Box3 box;
    box.add(in_world(middle - half) + from * inward());
    box.add(in_world(middle + half) + (from + depth) * inward());
    return box;
  }

  void keep_room(const OpeningSpec& opening, Vec2 middle) {
    const auto box = room_of(opening, middle);
    if (box) build_.draft.zones.push_back({panel_, *box, *opening.why, opening.place});
  }

  bool add_gland(const OpeningSpec& opening, Vec2 middle) {
    const Gland& gland = *tables::find_gland(**opening.thread);
    const double needed = flat().thickness_mm + gland.locknut_mm;
    if (needed > gland.inside_mm + tolerance::contact_mm) {
      build_.diagnostics.add(
          diag::say<"gland-too-short">(opening.thread->place, gland.size, build_.in_words(gland.inside_mm),
                                       build_.in_words(flat().thickness_mm), build_.in_words(needed)));
      return false;
    }
    const Instance& panel = build_.draft.instance(panel_);
    const Origin origin{panel.key + ".openings", opening.place, panel.group};
    const InstanceId id = build_.draft.add(cable_gland(gland, flat().thickness_mm), along(in_world(middle), inward()),
                                           fmt::format("{} gland {}", to_text(face_), ++glands_), origin);
    build_.draft.join(id, panel_, JointKind::bearing, inward());
    return true;
  }

  void add_edge_strip(const OpeningSpec& opening, Vec2 middle) {
    if (opening.edge_strip->mm() <= tolerance::contact_mm) return;
    const Instance& panel = build_.draft.instance(panel_);
    const InstanceId id = build_.draft.add(
        edge_strip((*opening.diameter)->mm(), opening.edge_strip->mm(), flat().thickness_mm, build_.spec.units),
        along(in_world(middle), inward()), fmt::format("{} edge strip {}", to_text(face_), ++edge_strips_),
        {panel.key + ".openings", opening.place, panel.group});
    build_.draft.join(id, panel_, JointKind::bearing, inward());
  }

  Build& build_;
  Face face_;
  InstanceId panel_;
  Box3 world_;  // of the panel
  int glands_ = 0;
  int edge_strips_ = 0;
};

std::optional<InstanceId> rod_plate_at(const Build& build, Face face) {
  if (face != Face::front && face != Face::back) return std::nullopt;
  return build.rod_plates[face == Face::front ? 0 : 1];
}

void add_in(Build& build, Face face, std::optional<InstanceId> plate, OpeningIn in) {
  std::optional<Openings> adding;
  if (plate) adding.emplace(build, face, *plate);
  for (const OpeningSpec& opening : build.box_spec().face(face).openings) {
    if (*opening.in != in) continue;
    if (adding) {
      adding->add(opening);
    } else if (in == OpeningIn::rod_plate) {
      build.diagnostics.add(
          diag::say<"no-rod-plate-to-open">(opening.place, word_of(*opening.kind), *opening.why, to_text(face)));
    }
  }
}

}  // namespace

void add_openings(Build& build) {
  for (const Face face : all_faces) {
    add_in(build, face, build.panels[static_cast<std::size_t>(face)], OpeningIn::face);
    add_in(build, face, rod_plate_at(build, face), OpeningIn::rod_plate);
  }
}

}  // namespace fitup::plan

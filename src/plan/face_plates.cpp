// Plates welded on from outside that close a face.
// Entry: add_face_plates.
#include <algorithm>

#include <fmt/format.h>

#include "diag/catalogue.h"
#include "fitup/tolerances.h"
#include "plan/boss_openings.h"
#include "plan/face_axes.h"
#include "plan/feet_beads.h"
#include "plan/flanged_cover.h"
#include "plan/outward_landing.h"
#include "plan/plate/walls.h"
#include "plan/plate_set_in.h"

namespace fitup::plan {

namespace {

// Held back from the frame's edges, so that a fillet weld has a place to lie.
constexpr double weld_land_mm = 2;
constexpr double least_lap_mm = 5;   // of a plate on what it is welded to, so that the bead does not burn its edge away
constexpr double least_flat_mm = 0;  // of a tube, whose wall goes on round its corner

std::size_t index(Face face) { return static_cast<std::size_t>(face); }

// What a plate behind a flanged cover is welded to there, and how far it reaches from that cover's face.
struct Land {
  std::string word;
  double width_mm;
  double needed_mm;
};

// A plate finds nothing to lie on where a tube's wall turns.
double rounding_mm(const Build& build, const Host& host) {
  const auto* member = std::get_if<Member>(&build.draft.part(host.id).form);
  return member != nullptr && member->section.shape == SectionShape::tube ? member->section.corner_radius_mm : 0;
}

Land on(const Build& build, const std::string& word, const Host& host, int axis) {
  const double round = rounding_mm(build, host);
  return {round > 0 ? "the flat of " + word : word, along(host.box.size(), axis) - round,
          round > 0 ? least_flat_mm : least_lap_mm};
}

Land land_of(const Build& build, Face cover, Face plate) {
  const Shell& shell = build.shell;
  const Side side = side_of(cover);
  if (axis_of(cover) == 2) {
    const char* word = side == high ? "a top member" : "a bottom member";
    return on(build, word, (side == high ? shell.top : shell.bottom)[low], 2);
  }
  if (axis_of(plate) == 2) {
    const char* word = plate == Face::top ? "a top member" : "a bottom member";
    const Host& deck = axis_of(cover) == 1 ? shell.top_face_deck[side] : shell.top_side_deck[side];
    return on(build, word, deck, axis_of(cover));
  }
  return on(build, "an upright", shell.upright[low][low], axis_of(cover));
}

// Behind a flange the plate must still lap the frame. One message for all plates: they have one cause.
bool laps_frame(Build& build, Face cover, Face plate) {
  const BoxSpec& spec = build.box_spec();
  const double begin = lapped_mm(spec, plate, cover);
  if (begin <= 0) return true;
  const Land land = land_of(build, cover, plate);
  if (land.width_mm - begin >= land.needed_mm - tolerance::contact_mm) return true;
  const Sourced<Length>& flange = spec.face(cover).flange_depth;
  const double largest = flange->mm() + land.width_mm - begin - land.needed_mm;
  const std::string smaller = shallower_flange(build, cover, largest);
  build.diagnostics.add(diag::say<"flange-too-deep">(
      flange.place, to_text(cover), build.in_words(flange->mm()), to_text(plate), build.in_words(begin), land.word,
      build.in_words(land.width_mm), land.needed_mm > 0 ? build.in_words(land.needed_mm) : "some of it",
      smaller.empty() ? "wider bars" : smaller + ", or wider bars"));
  return false;
}

struct Outside {
  Box3 box;
  Vec3 normal;  // axis
  Vec3 inward;
};

// How far from the frame's edge it begins, where nothing laps it. A side plate runs through from front to back. Under
// legs that point down a plate reaches to the outside: their toes are flat there only. Of a tube a plate ends on the
// flat beside the rounded edge, so that the bead has a side to lie on; a cover needs none. Above feet it leaves room for
// the bead along their edge too.
double land_mm(const Build& build, Face face, Face neighbour) {
  const bool welded = *build.box_spec().face(face).closed_by == Closure::plate;
  const double round = welded ? std::max(build.shell.bottom[low].round_mm, build.shell.top[low].round_mm) : 0;
  if (axis_of(face) == 0 && axis_of(neighbour) == 1) return round > 0 ? weld_land_mm + round : 0;
  if (face == Face::bottom && build.shell.toes_down) return 0;
  return weld_land_mm + round + (welded && neighbour == Face::bottom ? kept_for_feet_mm(build, face) : 0);
}

// Behind the flanges and the rings of neighbouring faces.
Outside outside_of(const Build& build, Face face, double t) {
  const Vec3 s = build.shell.size;
  const int n = axis_of(face);
  const bool at_low = side_of(face) == low;
  Outside outside{{{}, s}, unit(n, high), unit(n, at_low ? high : low)};
  along(outside.box.low, n) = at_low ? -t : along(s, n);
  along(outside.box.high, n) = at_low ? 0 : along(s, n) + t;
  for (const Face neighbour : all_faces) {
    const int axis = axis_of(neighbour);
    if (axis == n) continue;
    const double begin = std::max({land_mm(build, face, neighbour), lapped_mm(build.box_spec(), face, neighbour),
                                   kept_for_landing_mm(build, face, neighbour)});
    if (side_of(neighbour) == low) {
      along(outside.box.low, axis) = begin;
    } else {
      along(outside.box.high, axis) = along(s, axis) - begin;
    }
  }
  return outside;
}

const char* mark_of(Face face) {
  switch (face) {
    case Face::left: return "PLT20";
    case Face::right: return "PLT21";
    case Face::front: return "PLT22";
    case Face::back: return "PLT23";
    case Face::top: return "PLT24";
    case Face::bottom: return "PLT25";
  }
  return "PLT20";
}

// Of a tube that is sawn in the face's plane only the end of its walls lies there.
bool is_sawn_tube_end(Face face, const Host& host) {
  return host.wall_mm > 0 && along(host.box.size(), axis_of(face)) <= host.wall_mm + tolerance::contact_mm;
}

// Whether an edge of the sheet lies along the end of one of the tube's walls, rather than across two of them.
bool ends_on_wall(Face face, const Host& host, const Box3& sheet) {
  for (const int axis : {0, 1, 2}) {
    if (axis == axis_of(face)) continue;
    const double at_low = along(sheet.low, axis) - along(host.box.low, axis);
    const double at_high = along(host.box.high, axis) - along(sheet.high, axis);
    const auto on = [&](double in) { return in > tolerance::contact_mm && in < host.wall_mm - tolerance::contact_mm; };
    if (on(at_low) || on(at_high)) return true;
  }
  return false;
}

// The end of a lying leg between an upright above and a side member's leg below it offers a side plate that stands back
// behind an outward ring its thickness alone, and a seam that is shorter than two legs is none.
bool offers_a_bead(const Build& build, Face face, const Host& host, const Box3& sheet) {
  if (is_sawn_tube_end(face, host) && !ends_on_wall(face, host, sheet)) return false;
  const Shell& shell = build.shell;
  const auto is_host = [&](const Host& bottom) { return bottom.id == host.id; };
  if (axis_of(face) != 0 || !shell.toes_down || std::none_of(shell.bottom.begin(), shell.bottom.end(), is_host)) return true;
  const Section* section = ring_section(build, low);
  if (section->shape != SectionShape::angle) return true;
  const double t = section->thickness_mm;
  const bool at_front = host.id == shell.bottom[low].id;
  if (kept_for_landing_mm(build, face, at_front ? Face::front : Face::back) <= 0) return true;
  const bool meets_standing = at_front ? sheet.low.y < t : sheet.high.y > shell.size.y - t;
  return meets_standing || 2 * plate_bead_mm(build, face) <= t + tolerance::contact_mm;
}

void add_face_plate(Build& build, Face face) {
  const FaceSpec& f = build.box_spec().face(face);
  if (*f.set != PlateSet::outside) return add_plate_set_in(build, face, mark_of(face));
  const Outside outside = outside_of(build, face, f.thickness->mm());
  const std::string word(to_text(face));
  const bool side = face == Face::left || face == Face::right;
  const InstanceId id =
      add_plate(build, {mark_of(face), side ? "side plate" : word + " plate", Role::face_plate, material_of(build)},
                outside.box, outside.normal, word + " plate", {build.key("face." + word), f.place, "frame"});
  build.panels[index(face)] = id;
  if (side) build.side_plates[face == Face::left ? low : high] = id;
  for (const Host& beside : build.shell.beside[index(face)]) {
    if (!face_each_other(outside.box, beside.box, outside.normal)) continue;
    if (!meets_end(build, face, beside, outside.box)) continue;
    const bool welded = offers_a_bead(build, face, beside, outside.box);
    build.draft.join(id, beside.id, welded ? JointKind::weld : JointKind::bearing, outside.inward);
  }
}

}  // namespace

Box3 panel_box(const Build& build, Face face) {
  if (is_shell_wall(build.box_spec(), face) && *build.box_spec().face(face).closed_by == Closure::plate) {
    const auto& wall = std::get<Flat>(build.draft.part(*build.panels[index(face)]).form);
    return Prism{wall.profile, build.draft.instance(*build.panels[index(face)]).pose, wall.thickness_mm}.bounds();
  }
  return outside_of(build, face, build.box_spec().face(face).thickness->mm()).box;
}

void add_face_plates(Build& build) {
  const BoxSpec& spec = build.box_spec();
  std::array<bool, 6> laps{true, true, true, true, true, true};  // index: Face of the cover
  for (const Face face : all_faces) {
    // A box of plates has its walls already.
    if (*spec.face(face).closed_by != Closure::plate || build.panels[index(face)]) continue;
    bool all = true;
    for (const Face cover : all_faces) {
      const bool over = *spec.face(face).set == PlateSet::outside;
      laps[index(cover)] = laps[index(cover)] && (!over || laps_frame(build, cover, face));
      all = all && laps[index(cover)];
    }
    if (!all) continue;
    add_face_plate(build, face);
    if (face == Face::top && *spec.face(face).set == PlateSet::outside) clear_bosses(build, *build.panels[index(face)]);
  }
}

}  // namespace fitup::plan
